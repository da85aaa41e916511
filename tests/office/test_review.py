"""The office's answer to a call: accepted, sent back, stale, sent twice, and by whom it may be given."""

from seed_demo.people import LINDQVIST, OKAFOR
from tests.office.desk import Desk, Kept, words
from tests.server.house import House


def reviews_of(kept: Kept, call: str) -> list[dict]:
    return [entry for entry in kept.phone_of(OKAFOR).pull(call=call) if entry["kind"] == "review"]


def state_of(kept: Kept, call: str) -> str:
    return kept.phone_of(OKAFOR).get(f"/calls/{call}")["state"]


def test_accepting_writes_one_review_and_the_watch_begins(desk: Desk, submitted: str, kept: Kept) -> None:
    assert "Wait for your review" in words(desk.get("/office"))
    form = desk.review_form(submitted)
    answer = desk.post(f"/office/calls/{submitted}/reviews", **form, outcome="accepted", note="")
    page = words(desk.get(answer.headers["location"]))
    assert "Accepted." in page
    assert "under watch" in page
    assert state_of(kept, submitted) == "watching"
    (review,) = reviews_of(kept, submitted)
    assert review["author"] == "M. Castellanos"
    assert review["body"] == {"outcome": "accepted", "of": form["of"], "seen": int(form["seen"])}


def test_sending_back_needs_a_note_and_the_phone_gets_it(desk: Desk, submitted: str, kept: Kept) -> None:
    form = desk.review_form(submitted)
    refused = desk.post(f"/office/calls/{submitted}/reviews", 422, **form, outcome="returned", note="  ")
    assert "Say in the note what is missing" in words(refused.text)
    assert reviews_of(kept, submitted) == []
    desk.post(f"/office/calls/{submitted}/reviews", **form, outcome="returned", note="Acid test, please.")
    assert state_of(kept, submitted) == "returned"
    assert reviews_of(kept, submitted)[0]["body"]["note"] == "Acid test, please."
    assert "Acid test, please." in words(desk.get(f"/office/calls/{submitted}"))


def test_a_second_press_of_the_button_is_the_same_review(desk: Desk, submitted: str, kept: Kept) -> None:
    form = desk.review_form(submitted) | {"outcome": "accepted", "note": "good"}
    desk.post(f"/office/calls/{submitted}/reviews", **form)
    desk.post(f"/office/calls/{submitted}/reviews", **form)
    assert len(reviews_of(kept, submitted)) == 1


def test_a_page_grown_old_is_told_what_came(desk: Desk, submitted: str, kept: Kept) -> None:
    form = desk.review_form(submitted)
    kept.phone_of(OKAFOR).write("sign", {"sign": "knock", "present": True}, submitted)
    answer = desk.post(f"/office/calls/{submitted}/reviews", 412, **form, outcome="accepted", note="keep this note")
    page = words(answer.text)
    assert "something came since you opened this page" in page
    assert "Seen, T. Okafor: Knocks: yes" in page
    assert "keep this note" in page
    assert reviews_of(kept, submitted) == []
    desk.post(f"/office/calls/{submitted}/reviews", **desk.review_form(submitted), outcome="accepted", note="")
    assert len(reviews_of(kept, submitted)) == 1


def test_of_two_reviewers_the_second_is_told(desk: Desk, submitted: str, kept: Kept, house: House) -> None:
    house.person("S. Brandt", "office")
    other = Desk(house).sign_in("S. Brandt")
    first, second = desk.review_form(submitted), other.review_form(submitted)
    desk.post(f"/office/calls/{submitted}/reviews", **first, outcome="accepted", note="")
    answer = other.post(f"/office/calls/{submitted}/reviews", 412, **second, outcome="returned", note="More readings.")
    assert "Review, M. Castellanos: accepted" in words(answer.text)
    assert len(reviews_of(kept, submitted)) == 1


def test_a_technician_reads_but_does_not_review(desk: Desk, submitted: str, kept: Kept, house: House) -> None:
    kept.phone_of(LINDQVIST)
    reader = Desk(house).sign_in(LINDQVIST.name)
    assert "/reviews" not in reader.get(f"/office/calls/{submitted}")
    fields = desk.review_form(submitted) | {"outcome": "accepted", "note": ""}
    assert "has no right to review" in words(reader.post(f"/office/calls/{submitted}/reviews", 403, **fields).text)
    assert reader.http.get("/office/people").status_code == 403
    assert reviews_of(kept, submitted) == []


def test_a_review_from_elsewhere_is_refused(desk: Desk, submitted: str, kept: Kept) -> None:
    fields = desk.review_form(submitted) | {"outcome": "accepted", "note": ""}
    desk.post(f"/office/calls/{submitted}/reviews", 403, origin="https://elsewhere.example", **fields)
    assert reviews_of(kept, submitted) == []


def test_a_form_without_its_fields_says_which(desk: Desk, submitted: str) -> None:
    answer = desk.post(f"/office/calls/{submitted}/reviews", 422, outcome="accepted")
    assert "seen" in words(answer.text)
    fields = desk.review_form(submitted) | {"outcome": "shrugged", "note": ""}
    assert "accepted, returned" in words(desk.post(f"/office/calls/{submitted}/reviews", 422, **fields).text)
