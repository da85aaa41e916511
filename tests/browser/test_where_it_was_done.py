"""What takes a while is kept where it was begun, once, whatever the thumb does meanwhile."""

from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import expect

from tests.browser.places import entries_of
from tests.browser.technician import Technician
from tests.browser.test_whole_job import open_new_call
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

# A picture takes as long to shrink as on a cheap phone, an answer of the engine as long as on a slow one.
SLOW = """
    const decode = self.createImageBitmap;
    self.createImageBitmap = async (...given) => {
        await new Promise((done) => setTimeout(done, 1500));
        return decode(...given);
    };
    self.Worker = class extends Worker {
        postMessage(told) { setTimeout(() => super.postMessage(told), 500); }
    };
"""
# The phone's store is busy for a while: what is to be kept waits its turn.
BUSY = """(pause) => new Promise((begun) => {
    const asked = indexedDB.open("rackside");
    asked.onsuccess = () => {
        const db = asked.result;
        const entries = db.transaction(["entries"], "readwrite").objectStore("entries");
        const until = performance.now() + pause;
        const hold = () => { if (performance.now() < until) entries.get("none").onsuccess = hold; else db.close(); };
        begun(hold());
    };
})"""


@pytest.fixture
def technician(demo: Server, phone: Phone) -> Technician:
    person = Technician(phone, demo.url)
    person.settle_in()
    phone.page.add_init_script(SLOW)
    phone.page.reload()
    open_new_call(person, "A6", "High discharge temperature")
    return person


def kept_in_both(technician: Technician, server: Server, first: str, kind: str) -> tuple[list[dict], list[dict]]:
    """Return what the first call and the one open now hold of a kind, made on this phone."""
    technician.wait_until_sent()
    found = [entries_of(server, call) for call in (first, technician.call)]
    return tuple([one for one in entries if one["kind"] == kind] for entries in found)


def test_a_photo_belongs_to_the_call_it_was_taken_in(demo: Server, technician: Technician, tmp_path: Path) -> None:
    picture = tmp_path / "glass.jpg"
    Image.new("RGB", (1200, 900), (200, 140, 40)).save(picture)
    first = technician.call
    technician.go(f"#/call/{first}/photos")
    technician.page.get_by_label("Plate", exact=True).set_input_files(picture)
    technician.open_call("B3")
    technician.page.wait_for_timeout(2500)
    there, here = kept_in_both(technician, demo, first, "photo")
    assert (len(there), here) == (1, [])


def test_a_step_left_out_is_left_out_where_it_was_whole(demo: Server, technician: Technician) -> None:
    page = technician.page
    first = technician.call
    technician.step("heat")
    page.get_by_role("button", name="Leave this step out, because…").click()
    page.get_by_role("button", name="Does not apply to this machine").click()
    technician.open_call("B3")
    page.wait_for_timeout(2500)
    there, here = kept_in_both(technician, demo, first, "call")
    assert "heat" in there[-1]["body"]["extra"]["skipped"]
    assert [one for one in here if "skipped" in one["body"].get("extra", {})] == []
    there, here = kept_in_both(technician, demo, first, "reading")
    assert len([one for one in there if one["body"].get("not_taken")]) >= 5
    assert [one for one in here if one["body"].get("not_taken")] == []


def test_a_second_tap_on_keep_keeps_nothing_twice(demo: Server, technician: Technician) -> None:
    page = technician.page
    call = technician.call
    technician.open_point("as_found", "suction_pressure")
    technician.type_into("value", "9")
    page.evaluate(BUSY, 600)
    keep = page.get_by_role("button", name="Keep", exact=True)
    keep.evaluate("keep => { keep.click(); setTimeout(() => keep.click(), 200); }")
    page.wait_for_timeout(300)
    page.keyboard.press("Enter")
    expect(page.get_by_text("Kept on this phone at")).to_be_visible()
    technician.wait_until_sent()
    kept = [one["body"].get("point") for one in entries_of(demo, call) if one["kind"] == "reading"]
    assert kept.count("suction_pressure") == 1


def test_digits_typed_while_the_reading_before_is_still_being_kept_stay(demo: Server, technician: Technician) -> None:
    page = technician.page
    first = technician.call
    technician.open_point("as_found", "suction_pressure")
    technician.type_into("value", "9")
    page.evaluate(BUSY, 3000)
    page.get_by_role("button", name="Keep", exact=True).click()
    page.evaluate("place => { location.hash = place; }", f"#/call/{first}/as_found/discharge_pressure")
    technician.type_into("value", "231")
    page.wait_for_timeout(3500)
    box = page.locator('.field[data-field="value"]')
    expect(box).to_contain_text("231")
    page.reload()
    expect(box).to_contain_text("231")
    technician.go(f"#/call/{first}/as_found/suction_pressure")
    expect(page.get_by_text("Kept on this phone at")).to_be_visible()
    technician.wait_until_sent()
    kept = [one["body"].get("point") for one in entries_of(demo, first) if one["kind"] == "reading"]
    assert (kept.count("suction_pressure"), kept.count("discharge_pressure")) == (1, 0)


def test_marks_set_while_the_one_before_is_still_being_kept_stand_beside_it(technician: Technician) -> None:
    page = technician.page
    technician.step("make_safe")
    lines = [page.get_by_role("button", name=line) for line in ("Its own disconnect open", "Start tried")]
    expect(lines[0]).to_be_visible()
    page.evaluate(BUSY, 800)
    for line in lines:
        line.click()
    for line in lines:
        expect(line).to_have_attribute("aria-pressed", "true")
    page.reload()
    for line in lines:
        expect(line).to_have_attribute("aria-pressed", "true")
    expect(page.get_by_text("Two versions")).to_have_count(0)
