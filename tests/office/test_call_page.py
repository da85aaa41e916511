"""One call at the office: the verdicts the API gives, the record with its corrections, and nothing injected."""

import re

import pytest

from rackside import host
from rackside.reports.text import name
from seed_demo.people import LINDQVIST, OKAFOR
from seed_demo.story import Story
from seed_demo.visit import Visit
from tests.office.desk import Desk, Kept, keep_story, words

HOSTILE = "<script>alert('x')</script> \"><img src=x onerror=alert(1)> {{ 7 * 7 }}"


def findings_on(page: str) -> set[tuple[str, str, str]]:
    """Return (check title, verdict word, sentence) of every finding on a call's page."""
    cards = re.findall(r'<article class="finding.*?</article>', page, re.S)
    parts = (
        r"<h3>(.*?)</h3>",
        r'<p class="figure">.*?class="verdict-word">(.*?)</span>',
        r'<p class="because">(.*?)</p>',
    )
    return {tuple(words(re.search(part, card, re.S)[1]) for part in parts) for card in cards}


def test_the_page_says_what_the_results_say(desk: Desk, submitted: str, kept: Kept) -> None:
    result = kept.phone_of(OKAFOR).get(f"/calls/{submitted}/results")["result"]
    told = [finding for round_ in result["rounds"] for finding in round_["findings"]]
    page = desk.get(f"/office/calls/{submitted}")
    assert len(re.findall(r'<article class="finding', page)) == len(told) > 8
    shown = {(title.lower(), word, because) for title, word, because in findings_on(page)}
    expected = {
        (name("check", one["check"]).lower(), one["verdict"].replace("_", " "), words(one["because"])) for one in told
    }
    assert shown == expected
    assert "33 ± 0.84 psi" in words(page)
    assert "waiting for review" in words(page)
    assert "All times: America/Chicago" in words(page)


def test_corrections_and_retractions_stand_in_the_log(desk: Desk, story: Story, kept: Kept) -> None:
    corrected = words(desk.get(f"/office/calls/{keep_story(story, kept, 'F2')}"))
    wrong = re.search(r" (\d+) 28 Sep \S+ T\. Okafor Reading Running amps 39\.2 / 35\.4 / 36\.1 A", corrected)
    assert f"now: legs L1 39.2, L2 35.4, L3 31.6 corrects no. {wrong[1]}" in corrected
    assert f"corrected by no. {int(wrong[1]) + 1}" in corrected
    assert "On B3: Running amps 38.4 / 35.0 / 31.5 A" in corrected
    withdrawn = words(desk.get(f"/office/calls/{keep_story(story, kept, 'F4')}"))
    assert "taken back: entered twice" in withdrawn


def test_limits_stand_with_their_sources(desk: Desk, story: Story, kept: Kept) -> None:
    page = words(desk.get(f"/office/calls/{keep_story(story, kept, 'F2')}"))
    assert "fail above 2 % NEMA MG 1, 14.36, 2016 (published)" in page
    assert "common practice" in page


def test_hostile_text_is_only_text(desk: Desk, story: Story, kept: Kept) -> None:
    visit = Visit(story, "hostile", "A2", LINDQVIST, story.day(2, "09:00")).open("noise", HOSTILE)
    found = visit.round("as_found")
    found.not_taken("insulation_resistance", HOSTILE)
    found.legs("line_voltage", "477 478 476", "V", "running")
    visit.action("part_fitted", HOSTILE, HOSTILE, HOSTILE)
    visit.decide("repair", "head_fan", HOSTILE)
    visit.submit(HOSTILE)
    kept.keep(story)
    for path in ("", "/report"):
        page = desk.get(f"/office/calls/{visit.call}{path}")
        assert "<script" not in page
        assert "<img" not in page
        assert "&lt;script&gt;alert(" in page
        assert "{{ 7 * 7 }}" in page
        assert not re.search(r"\sstyle=", page)


def test_an_untouched_call_says_that_nothing_was_measured(desk: Desk, story: Story, kept: Kept) -> None:
    call = keep_story(story, kept, "F7")
    page = words(desk.get(f"/office/calls/{call}"))
    assert "Nothing has been measured yet." in page
    assert "The phone sent no judgement of this call." in page
    assert "No decision has been recorded yet." in words(desk.get(f"/office/calls/{call}/report"))


@pytest.mark.parametrize("same", [True, False])
def test_the_phones_judgement_stands_beside_the_servers(desk: Desk, submitted: str, kept: Kept, same: bool) -> None:
    phone = kept.phone_of(OKAFOR)
    pulled = phone.pull(call=submitted)
    result = phone.get(f"/calls/{submitted}/results")["result"]
    if not same:
        result["rounds"][0]["findings"][1]["value"] = 99.5
    body = {"engine": result["engine"], "upto": [entry["id"] for entry in pulled], "result": result}
    assert result["engine"]["digest"] == host.digest()
    phone.write("judgement", body, submitted)
    page = words(desk.get(f"/office/calls/{submitted}"))
    assert ("gave the same verdicts and values" in page) is same
    assert ("differ at 1 places" in page) is not same


def test_a_call_nobody_knows_is_a_page_too(desk: Desk) -> None:
    page = words(desk.get("/office/calls/00000000-0000-4000-8000-000000000000", 404))
    assert "There is no call" in page
    assert "Back to today" in page


def test_a_call_the_engine_fails_at_still_shows_its_log(
    desk: Desk, story: Story, kept: Kept, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(_text: str, _language: str) -> str:
        raise IndexError("list index out of range")

    call = keep_story(story, kept, "F7")
    monkeypatch.setattr(host.entry, "judge", broken)
    page = words(desk.get(f"/office/calls/{call}"))
    assert "The engine could not judge this call" in page
    assert "Call opened Oil failure trip" in page
    report = words(desk.get(f"/office/calls/{call}/report", 500))
    assert "Its entries are kept" in report


def test_what_the_phone_marked_and_left_out_stands_on_the_page(desk: Desk, submitted: str) -> None:
    page = words(desk.get(f"/office/calls/{submitted}"))
    marked = page[page.index("Marked on the phone") :]
    assert re.search(r"Its own disconnect open, locked and tagged \d\d \w{3} \d\d:\d\d", marked)
    assert "Left out: control string and contactor nothing open in the string: the oil control alone" in marked
    assert "now: marked done: Start tried: nothing moved corrects no." in page
    assert "extra" not in page
    assert "not marked" not in page


def test_marks_not_made_are_told_when_others_were(desk: Desk, story: Story, kept: Kept) -> None:
    visit = Visit(story, "half safe", "A2", LINDQVIST, story.day(2, "09:00")).open("noise", "it hums")
    visit.marked("locked")
    kept.keep(story)
    page = words(desk.get(f"/office/calls/{visit.call}"))
    assert "Start tried: nothing moved not marked" in page
    unmarked = Visit(story, "unmarked", "A2", LINDQVIST, story.day(1, "09:00")).open("noise", "it hums")
    kept.keep(story)
    assert "not marked" not in words(desk.get(f"/office/calls/{unmarked.call}"))


def test_photos_say_what_they_show_and_what_they_stand_beside(desk: Desk, submitted: str) -> None:
    page = words(desk.get(f"/office/calls/{submitted}"))
    photos = page[page.index(" Photos ") : page.index(" Signed ")]
    assert re.search(r"Oil: glass of A1: full, no line to be seen \d\d \w{3} \d\d:\d\d, beside no\. \d+", photos)
    assert "Alarm: controller at arrival, before any reset" in photos
    assert "signature of" not in photos
    assert "Photo Alarm: controller at arrival, before any reset" in page[page.index(" Log ") :]


def test_lines_totals_and_signatures_stand_on_the_page(desk: Desk, submitted: str) -> None:
    page = words(desk.get(f"/office/calls/{submitted}"))
    assert "Bulb strap with insulation 2 6.40 USD 12.80 USD" in page
    assert "Total of this visit 863.80 USD" in page
    assert "Total offered, not yet ordered 480.00 USD" in page
    assert re.search(r"S\. Whitlow, night desk \d\d \w{3} \d\d:\d\d, on the phone of T\. Okafor", page)
