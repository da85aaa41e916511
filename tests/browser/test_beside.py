"""Read on the machine beside in the same minute: what both show is the supply's, not this machine's alone (F2)."""

from playwright.sync_api import expect

from tests.browser.places import entries_of
from tests.browser.technician import Technician
from tests.browser.test_whole_job import LINES, PAIRS, POLES, legs, open_new_call
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server


def test_an_unbalance_that_stays_with_the_supply_and_shows_on_the_twin(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    page = phone.page
    technician.settle_in()
    open_new_call(technician, "B2", "Protector or module trip")
    technician.write("event", "trip", ("Protection module", "tripped", "yes"))
    technician.read("as_found", "line_voltage", legs(PAIRS, "461 475 472"), state="running")
    technician.read("as_found", "running_current", legs(LINES, "39.2 35.4 31.6"))

    page.get_by_role("link", name="Read it on a machine beside").click()
    page.get_by_label("Read on").select_option("B3")
    for field, amps in legs(LINES, "38.4 35.0 31.5").items():
        technician.type_into(field, amps)
    technician.keep()
    expect(page.get_by_text("Read on B3, to compare with.")).to_be_visible()
    expect(page.get_by_role("link", name="Drive frequency")).to_have_count(0)
    technician.step("running")
    row = page.locator(".point-row", has_text="Running amps")
    expect(row).to_contain_text("B3 38.4 / 35.0 / 31.5 A")
    expect(row.locator(".point-value")).to_have_text("39.2 / 35.4 / 31.6 A")

    technician.write("action", "leads_rolled", ("Leads rolled",), what="T1", before="T1 on L1", after="T1 on L2")
    technician.go(f"#/call/{technician.call}/as_found/running_current/again")
    for field, amps in legs(LINES, "38.9 35.6 31.7").items():
        technician.type_into(field, amps)
    page.get_by_role("button", name="one place").click()
    technician.keep()
    technician.read("as_found", "pole_drop", legs(POLES, "44 41 40"))
    technician.tab("findings")
    leader = page.locator("[data-cause]").first
    expect(leader).to_have_attribute("data-cause", "voltage_unbalance")
    expect(leader).to_contain_text("other machines show it too")

    technician.wait_until_sent()
    assert page.locator(".is-alarm").count() == 0, "the office refused something"
    beside = [entry["body"] for entry in entries_of(demo, technician.call) if "neighbour" in entry["body"]]
    assert [body["neighbour"] for body in beside] == [{"tag": "B3", "like": True, "running": True}]
