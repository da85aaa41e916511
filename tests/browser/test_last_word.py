"""What a phone hands in as its engine's word is of the entries it names, however slow the engine is."""

import pytest
from playwright.sync_api import expect

from tests.browser.alone import Run
from tests.browser.alone import run as run
from tests.browser.places import entries_of, office_client
from tests.browser.technician import Technician
from tests.browser.test_basement import results
from tests.browser.test_whole_job import come_up, go_down, open_new_call
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

# Every question reaches the engine late, or not at all.
WORKER = """
    window.late = 0;
    window.Worker = class extends Worker {
        postMessage(told) {
            if (window.late < Infinity) setTimeout(() => super.postMessage(told), window.late);
        }
    };
"""
# A store with room for small things only.
NO_ROOM = """() => {
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (value, ...more) {
        if (value?.kind === "judgement") throw new DOMException("full", "QuotaExceededError");
        return put.call(this, value, ...more);
    };
}"""


@pytest.fixture
def technician(demo: Server, phone: Phone) -> Technician:
    person = Technician(phone, demo.url)
    phone.page.set_default_timeout(10_000)
    go_down(person, demo)
    phone.page.add_init_script(WORKER)
    phone.page.reload()
    open_new_call(person, "A6", "High discharge temperature")
    person.read("as_found", "suction_pressure", {"value": "9"}, state="running")
    person.read("as_found", "discharge_pressure", {"value": "230"}, state="running")
    expect(phone.page.locator("[data-check]").first).to_be_visible()
    return person


def hand_in(technician: Technician) -> None:
    technician.step("hand_over")
    button = technician.page.get_by_role("button", name="Hand in to the office")
    button.evaluate("button => { button.click(); button.click(); }")
    expect(technician.page.get_by_text("Handed in.")).to_be_visible()


def test_handing_in_waits_for_the_last_reading_to_be_judged(demo: Server, technician: Technician) -> None:
    technician.page.evaluate("window.late = 700")
    technician.read("as_found", "discharge_temperature", {"value": "246"}, state="running", Probe="clamp")
    technician.sign_with_a_finger("A. Night")
    hand_in(technician)
    answer = come_up(technician, demo)
    assert answer["phone"]["agrees"] is True, answer["phone"]
    kept = entries_of(demo, technician.call)
    assert [entry["kind"] for entry in kept[-2:]] == ["judgement", "submission"], "one of each, though tapped twice"
    missing = {entry["id"] for entry in kept[:-2]} - set(kept[-2]["body"]["upto"])
    assert missing == set()


def test_an_engine_that_does_not_answer_holds_nothing_up(demo: Server, technician: Technician) -> None:
    technician.page.evaluate("window.late = Infinity")
    technician.read("as_found", "discharge_temperature", {"value": "246"}, state="running", Probe="clamp")
    hand_in(technician)
    answer = come_up(technician, demo)
    assert answer["phone"]["agrees"] is True, answer["phone"]
    *rest, judgement, submission = entries_of(demo, technician.call)
    assert submission["kind"] == "submission"
    unheard = [entry for entry in rest if entry["id"] not in judgement["body"]["upto"]]
    assert [entry["body"].get("point") for entry in unheard] == ["discharge_temperature"]


def test_a_phone_put_away_has_handed_in(technician: Technician) -> None:
    page = technician.page
    page.evaluate("window.late = Infinity")
    technician.read("as_found", "discharge_temperature", {"value": "246"}, state="running", Probe="clamp")
    technician.step("hand_over")
    page.get_by_role("button", name="Hand in to the office").click()
    expect(page.get_by_text("Handing in…")).to_be_visible()
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    expect(page.get_by_text("Handed in.")).to_be_visible(timeout=1_000)


def test_a_phone_without_room_for_the_engine_s_word_hands_in_all_the_same(demo: Server, technician: Technician) -> None:
    technician.page.evaluate(NO_ROOM)
    technician.step("decision")
    technician.page.get_by_role("button", name="Restart", exact=True).click()
    technician.page.get_by_role("button", name="Keep the decision").click()
    expect(technician.page.get_by_text("Decided: Restart")).to_be_visible()
    hand_in(technician)
    assert come_up(technician, demo)["phone"] is None
    assert [entry["kind"] for entry in entries_of(demo, technician.call)[-2:]] == ["decision", "submission"]


def test_a_call_handed_in_twice_is_compared_twice(demo: Server, phone: Phone) -> None:
    """Its own rounds are among the machine's last by then: they are no earlier rounds of it."""
    technician = Technician(phone, demo.url)
    technician.settle_in()
    call = technician.open_call("B3")
    technician.read("as_found", "oil_level", {"value": "0.5"})
    technician.read("as_left", "oil_level", {"value": "0.5"})
    hand_in(technician)
    technician.wait_until_sent()
    first = results(demo, call)["phone"]
    with office_client(demo) as office:
        review = {"id": "11111111-2222-4333-8444-555555555555", "outcome": "returned", "note": "again"}
        seen = {"seen": results(demo, call)["entries"]}
        assert office.post(f"/calls/{call}/reviews", json=review | seen).status_code == 201
    phone.page.reload()
    technician.step("hand_over")
    expect(phone.page.get_by_text("This call is sent back")).to_be_visible(timeout=20_000)
    technician.read("as_left", "sump_temperature", {"value": "93"})
    hand_in(technician)
    technician.wait_until_sent()
    assert [first["agrees"], results(demo, call)["phone"]["agrees"]] == [True, True]
    told = [entry["body"] for entry in entries_of(demo, call) if entry["kind"] == "judgement"]
    assert [len(said["extra"]["history"]) for said in told] == [5, 5]


def test_a_decision_stands_beside_what_was_said_before_it(demo: Server, technician: Technician) -> None:
    page = technician.page
    technician.step("decision")
    page.get_by_role("button", name="Restart", exact=True).click()
    page.get_by_role("button", name="Keep the decision").click()
    expect(page.get_by_text("Decided: Restart")).to_be_visible()
    answer = come_up(technician, demo)
    assert answer["phone"]["agrees"] is True, answer["phone"]
    *rest, judgement, decision = entries_of(demo, technician.call)
    assert (judgement["kind"], decision["kind"]) == ("judgement", "decision")
    assert {entry["id"] for entry in rest} <= set(judgement["body"]["upto"])
    assert decision["id"] not in judgement["body"]["upto"]


def test_a_call_opened_again_is_judged_in_the_order_it_was_made(run: Run) -> None:
    """Two things of one second have no other order; the server's is the one they were sent in."""
    ids = run("""
        for (const id of ["f", "0", "7", "a"]) await keep([make("event", {}, { id, call: "c" })]);
        await settle([{ id: "a", status: "accepted", cursor: 4 }, { id: "7", status: "accepted", cursor: 9 }], "first");
        return (await rowsOfCall("c")).map(({ id }) => id);
    """)
    assert ids == ["a", "7", "f", "0"]
