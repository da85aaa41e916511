"""What is not yet known is entered on the spot: site, machine, plate, meter; and what was kept is taken back."""

from playwright.sync_api import expect

from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server


def test_a_new_site_and_machine_are_entered_offline_and_reach_the_office(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    technician.settle_in()
    page = phone.page
    phone.context.set_offline(True)
    technician.go("#/new")
    page.get_by_role("link", name="A site that is not here").click()
    page.locator('[name="name"]').fill("Wharf Row Cold Store")
    page.locator('[name="nominal_voltage"]').fill("four eighty")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.get_by_role("alert")).to_contain_text("Missing, or not a number: Supply.")
    page.locator('[name="nominal_voltage"]').fill("480")
    page.get_by_role("button", name="Keep", exact=True).click()
    site = page.get_by_role("region", name="Wharf Row Cold Store")
    site.get_by_role("link", name="A machine that is not here").click()
    page.locator('[name="tag"]').fill("W1")
    page.locator('[name="rated_voltage"]').fill("460")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(site.get_by_role("button", name="W1")).to_have_attribute("aria-pressed", "true")
    page.get_by_role("button", name="Does not start").click()
    page.get_by_role("button", name="Open the call").click()
    expect(page.get_by_role("heading", name="W1 Does not start")).to_be_visible()
    technician.call = page.url.split("/call/")[1].split("/")[0]

    technician.step("machine")
    expect(page.get_by_text("Not yet confirmed by the office.")).to_be_visible()
    page.get_by_role("link", name="Enter or correct").click()
    page.locator('[name="rated_load_current"]').fill("40")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.locator(".facts")).to_contain_text("40 A")
    technician.read("as_found", "running_current", {"L1": "33", "L2": "33", "L3": "33"})
    expect(page.locator('[data-check="running_current_level"]')).to_have_attribute("data-verdict", "pass")

    phone.context.set_offline(False)
    technician.wait_until_sent()
    assert page.locator(".is-alarm").count() == 0, "the office refused something"


def test_a_meter_is_added_from_the_field_and_its_digits_wait(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.open_call("B3")
    technician.open_point("as_found", "running_current")
    technician.type_into("L1", "33.1")
    phone.page.wait_for_timeout(300)
    phone.page.get_by_label("Meter").select_option("+")
    phone.page.locator('[name="name"]').fill("Clamp 9")
    phone.page.get_by_role("button", name="clamp", exact=True).click()
    phone.page.locator('[name="percent"]').fill("2")
    phone.page.get_by_role("button", name="Keep", exact=True).click()
    expect(phone.page.locator('[data-field="L1"] .field-text')).to_have_text("33.1")
    expect(phone.page.get_by_label("Meter").locator("option:checked")).to_have_text("Clamp 9")


def test_undo_takes_back_what_was_kept_and_gives_the_digits_back(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.open_call("B3")
    technician.read("as_found", "oil_level", {"value": "0.05"})
    phone.page.get_by_role("button", name="Undo").click()
    expect(phone.page.locator('[data-field="value"] .field-text')).to_have_text("0.05")
    technician.step("look")
    row = phone.page.locator(".point-row", has_text="Oil level")
    expect(row).not_to_contain_text("0.05")
    technician.wait_until_sent()
    assert phone.page.locator(".is-alarm").count() == 0, "the office refused the retraction"
