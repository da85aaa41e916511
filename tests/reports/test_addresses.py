"""The addresses of the outputs, for other software and for the office: kinds, files, refusals, photos and signature."""

import csv
import io
import json

import httpx
import pytest

from rackside.reports import outputs
from seed_demo.people import OKAFOR
from seed_demo.story import Story
from seed_demo.visit import Visit
from tests.office.desk import Desk, Kept, keep_story, words
from tests.server.house import House

TYPES = {"html": "text/html; charset=utf-8", "pdf": "application/pdf"}


def fetched(kept: Kept, call: str, file: str, status: int = 200, **query: str) -> httpx.Response:
    answer = kept.phone_of(OKAFOR).http.get(f"/api/v1/calls/{call}/report.{file}", params=query)
    assert answer.status_code == status, answer.text
    return answer


@pytest.mark.parametrize("kind", outputs.OUTPUTS)
@pytest.mark.parametrize("file", TYPES)
def test_each_output_is_a_page_and_a_pdf(kept: Kept, flooded: str, kind: str, file: str) -> None:
    if file == "pdf":
        pytest.importorskip("weasyprint", exc_type=(ImportError, OSError))
    answer = fetched(kept, flooded, file, kind=kind)
    assert answer.headers["content-type"] == TYPES[file]
    assert answer.headers["cache-control"] == "no-store"
    if file == "pdf":
        assert answer.headers["content-disposition"] == f'inline; filename="{kind}-{flooded[:8]}.pdf"'


def test_without_a_kind_it_is_the_customers_report(kept: Kept, flooded: str) -> None:
    assert "Machine A1: what was found and what was done" in words(fetched(kept, flooded, "html").text)


def test_an_unknown_kind_is_refused_with_what_there_is(kept: Kept, flooded: str) -> None:
    told = fetched(kept, flooded, "html", 422, kind="insurance").json()
    assert told["code"] == "invalid_query"
    assert "'customer', 'warranty' or 'next'" in told["errors"][0]["detail"]


@pytest.mark.parametrize("file", ["html", "pdf", "csv", "json"])
def test_a_call_of_a_foreign_site_is_not_found(house: House, flooded: str, file: str) -> None:
    stranger = house.key(f"stranger for {file}", "read", sites=[])
    answer = stranger.http.get(f"/api/v1/calls/{flooded}/report.{file}")
    assert answer.status_code == 404
    assert answer.json()["code"] == "not_found"


def test_the_document_has_lines_totals_photos_and_signature(kept: Kept, flooded: str) -> None:
    told = fetched(kept, flooded, "json").json()
    assert told["format"] == "rackside-warranty-1"
    assert told["machine"]["serial"] == "LT22-1040"
    assert told["totals"] == {
        "charged": [{"currency": "USD", "total": "863.80"}],
        "offered": [{"currency": "USD", "total": "480.00"}],
        "unpriced": 0,
    }
    assert [line["kind"] for line in told["lines"]] == ["part", "part", "labour", "travel", "quote"]
    assert told["signatures"][0]["who"] == "S. Whitlow"
    assert [photo["shows"] for photo in told["photos"]] == ["alarm", "oil", "part"]
    assert {photo["missing"] for photo in told["photos"]} == {None}
    results = kept.phone_of(OKAFOR).get(f"/calls/{flooded}/results")
    assert told["result"] == results["result"]
    assert told["case"] == kept.phone_of(OKAFOR).get(f"/calls/{flooded}/case")


def test_the_table_has_a_row_for_every_reading_verdict_and_line(kept: Kept, flooded: str) -> None:
    rows = list(csv.DictReader(io.StringIO(fetched(kept, flooded, "csv").text)))
    case = fetched(kept, flooded, "json").json()["case"]
    read = {row["readings"] for row in rows if row["record"] == "reading"}
    assert len(read) == sum(len(round_["readings"]) for round_ in case["rounds"])
    (cold,) = [row for row in rows if row["record"] == "reading" and row["value"] == "14"]
    assert (cold["what"], cold["unit"], cold["state"]) == ("insulation_resistance", "Mohm", "isolated")
    assert cold["conditions"] == "leads off, winding at 38 °F, after 60 s, at 500 V"
    oil = [row for row in rows if row["record"] == "verdict" and row["what"] == "net_oil_pressure"]
    assert [(row["round"], row["verdict"]) for row in oil] == [("interim", "cannot_tell"), ("as_left", "pass")]
    assert [row["total"] for row in rows if row["record"] == "total charged"] == ["863.80"]


def test_the_signature_and_the_photos_stand_on_the_customers_page(desk: Desk, flooded: str) -> None:
    page = desk.get(f"/office/calls/{flooded}/report")
    assert 'alt="Signature of S. Whitlow"' in page
    assert page.count("<img ") == 4
    told = words(page)
    assert "S. Whitlow , night desk 24 Nov 2026 09:" in told
    assert "Alarm: controller at arrival, before any reset" in told
    for line in ("Crankcase heater 100 W 120 V 1 84.00 USD 84.00 USD", "Total of this visit 863.80 USD"):
        assert line in told
    assert "Total offered, not yet ordered 480.00 USD" in told


def test_the_office_links_all_three_from_the_call(desk: Desk, flooded: str) -> None:
    page = desk.get(f"/office/calls/{flooded}")
    for kind in outputs.OUTPUTS:
        assert f'href="/office/calls/{flooded}/report?kind={kind}"' in page
        assert f'href="/office/calls/{flooded}/report.pdf?kind={kind}"' in page
        assert 'aria-current="page"' in desk.get(f"/office/calls/{flooded}/report?kind={kind}")
    assert json.loads(desk.get(f"/office/calls/{flooded}/report.json"))["format"] == "rackside-warranty-1"
    assert desk.get(f"/office/calls/{flooded}/report.csv").startswith("record,round,at,by,what,")


def test_the_files_name_the_clock_and_hold_what_the_phone_marked(desk: Desk, flooded: str) -> None:
    told = json.loads(desk.get(f"/office/calls/{flooded}/report.json"))
    clock = "Times are as written, each with its own offset; the site's clock is America/Chicago."
    assert told["times"] == {"time_zone": "America/Chicago", "words": clock}
    assert [mark["mark"] for mark in told["marks"]["done"]] == ["machine", "staged", "locked", "tried", "waited"]
    assert [change["of"] for change in told["changes"]] == []
    rows = list(csv.DictReader(io.StringIO(desk.get(f"/office/calls/{flooded}/report.csv"))))
    assert [row["text"] for row in rows if row["what"] in ("time zone", "times")] == ["America/Chicago", clock]
    (left_out,) = [row for row in rows if row["record"] == "left out"]
    assert (left_out["what"], left_out["text"][:12]) == ("control", "nothing open")
    paper = words(desk.get(f"/office/calls/{flooded}/report?kind=warranty"))
    assert "Left out, control string and contactor: nothing open in the string" in paper
    assert "Start tried: nothing moved" in paper


def test_a_photo_still_on_the_phone_is_told_plainly(desk: Desk, story: Story, kept: Kept) -> None:
    call = keep_story(story, kept, "F1")
    for kind in ("customer", "warranty"):
        assert "Photo not shown: not here yet: still on the phone of T. Okafor." in words(
            desk.get(f"/office/calls/{call}/report?kind={kind}")
        )


def test_a_photo_that_is_no_picture_inside_is_told_plainly(desk: Desk, story: Story, kept: Kept) -> None:
    broken = b"\x89PNG\r\n\x1a\n" + bytes(40)
    visit = Visit(story, "broken", "A2", OKAFOR, story.day(3, "09:00")).open("routine")
    told = {"sha256": story.picture(broken), "media_type": "image/png", "shows": "part", "size": len(broken)}
    visit.write("photo", told)
    kept.keep(story)
    put = kept.phone_of(OKAFOR).http.put(f"/api/v1/photos/{told['sha256']}", content=broken)
    assert put.status_code == 201
    page = words(desk.get(f"/office/calls/{visit.call}/report"))
    assert "Photo not shown: it arrived, but can't be opened as a picture." in page


def test_a_corrected_line_counts_once_and_one_taken_back_not_at_all(desk: Desk, story: Story, kept: Kept) -> None:
    visit = Visit(story, "priced", "A4", OKAFOR, story.day(2, "10:00")).open("routine")
    part = visit.write("line", {"kind": "part", "what": "filter core", "quantity": "1", "price": "40"})
    visit.write("line", {"price": "44.50"}, base=(part,))
    wrong = visit.write("line", {"kind": "labour", "what": "hours", "quantity": "9", "price": "112"})
    visit.write("retraction", {"of": wrong, "why": "another call's"})
    kept.keep(story)
    told = words(desk.get(f"/office/calls/{visit.call}/report?kind=warranty"))
    assert "Total of this visit 44.50 USD" in told
    assert "price: 40 → 44.50" in told
    assert "line, taken back: another call's" in told
