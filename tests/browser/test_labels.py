"""A machine's label opens its card: by the camera's address without signal, or by the code typed in."""

import re

from playwright.sync_api import expect

from rackside.office.short_code import signs_of
from seed_demo.people import OKAFOR
from tests.browser.places import office_client
from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server


def code_of(server: Server, tag: str) -> str:
    with office_client(server) as client:
        machines = client.get("/machines", params={"limit": 500}).raise_for_status().json()["items"]
    return signs_of(next(one["id"] for one in machines if one["tag"] == tag))[:6]


def test_a_label_opens_its_machine_without_signal(demo: Server, phone: Phone) -> None:
    code = code_of(demo, "B3")
    technician = Technician(phone, demo.url)
    technician.settle_in()
    demo.kill()
    phone.context.set_offline(True)
    phone.page.goto(f"{demo.url}/m/{code}")
    expect(phone.page).to_have_url(re.compile("#/machine/"))
    expect(phone.page.locator("main .tag").first).to_have_text("B3")
    expect(phone.page.get_by_label("Plate")).to_contain_text("R-448A")
    expect(phone.page.get_by_role("heading", name="Last visits")).to_be_visible()
    phone.page.get_by_role("button", name="Open a call").click()
    expect(phone.page.get_by_role("button", name="B3", exact=True)).to_have_attribute("aria-pressed", "true")


def test_a_label_read_before_sign_in_opens_its_machine_after_it(demo: Server, phone: Phone) -> None:
    page = phone.page
    page.goto(f"{demo.url}/m/{code_of(demo, 'A6')}")
    expect(page.get_by_label("Your name")).to_be_visible()
    phone.context.set_offline(True)
    sign_in_here(phone)
    expect(page.get_by_role("alert")).to_contain_text("The office can't be reached")
    phone.context.set_offline(False)
    page.get_by_role("button", name="Sign in").click()
    expect(page).to_have_url(re.compile("#/machine/"), timeout=30_000)
    expect(page.locator("main .tag").first).to_have_text("A6")
    expect(page.get_by_label("Plate")).to_be_visible()


def sign_in_here(phone: Phone) -> None:
    phone.page.get_by_label("Your name").fill(OKAFOR.name)
    phone.page.get_by_label("Password").fill(OKAFOR.password)
    phone.page.get_by_role("button", name="Sign in").click()


def test_a_code_is_typed_with_what_is_wrong_told(demo: Server, phone: Phone) -> None:
    code = code_of(demo, "A3")
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.go("#/code/")
    field = phone.page.get_by_label("The code on the machine's label")
    for typed, told in (("ABC", "at least six signs"), ("ABO1AB", "no O, 0, I or 1"), ("222222", "No machine here")):
        field.fill(typed)
        expect(phone.page.get_by_role("status").last).to_contain_text(told)
    field.fill(f"{code[:3].lower()} {code[3:]}")
    expect(phone.page.locator(".card .tag")).to_have_text("A3")
