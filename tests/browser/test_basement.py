"""The whole story: a call taken without signal, a dead battery, and the office that hears of it later."""

import httpx
from playwright.sync_api import Browser, expect

from seed_demo.people import CASTELLANOS, LINDQVIST
from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

# Case F7 of the handbook: an oil trip on a machine that never turned.
SEEN = ("Breaker handle tripped", "No volts on the line side of the contactor", "Head cold")


def take_the_round(technician: Technician) -> None:
    technician.saw(*SEEN)
    technician.read("as_found", "trip_delay", {"value": "121"})
    technician.choose_word("as_found", "oil_colour", "straw")
    technician.read("as_found", "oil_level", {"value": "0.5"})
    technician.read("as_found", "sump_temperature", {"value": "93"})
    technician.read("as_found", "ambient_temperature", {"value": "70"})
    technician.read("as_found", "line_voltage", dict.fromkeys(("L1-L2", "L2-L3", "L3-L1"), "0"), state="stopped")
    technician.read("as_found", "coil_voltage", {"value": "118"}, Being_called="yes", Moment="sealed")
    megohms = {"value": "1100", "winding_temperature": "68"}
    technician.read("as_found", "insulation_resistance", megohms, Motor_leads="off")
    ohms = {"T1-T2": "0.519", "T2-T3": "0.522", "T3-T1": "0.516"}
    technician.read("as_found", "winding_resistance", ohms, Motor_leads="on")


def prove_the_repair(technician: Technician) -> None:
    volts = {"L1-L2": "479", "L2-L3": "478", "L3-L1": "480"}
    technician.read("as_left", "line_voltage", volts, state="running")
    technician.read("as_left", "running_current", {"L1": "33.1", "L2": "33.4", "L3": "32.9"})
    technician.read("as_left", "pole_drop", {"L1-T1": "40", "L2-T2": "42", "L3-T3": "39"})


def results(server: Server, call: str) -> dict:
    signed_in = {"name": CASTELLANOS.name, "password": CASTELLANOS.password, "device": "test"}
    with httpx.Client(base_url=server.url + "/api/v1", trust_env=False, timeout=30) as client:
        token = client.post("/devices", json=signed_in).raise_for_status().json()["token"]
        answer = client.get(f"/calls/{call}/results", headers={"Authorization": f"Bearer {token}"})
        return answer.raise_for_status().json()


def spoken(result: dict) -> list[list[str]]:
    found = [(round_["label"], finding) for round_ in result["rounds"] for finding in round_["findings"]]
    return sorted([label, one["check"], one["verdict"], one["because"]] for label, one in found)


def in_the_office(browser: Browser, server: Server, call: str) -> list[tuple[str, str]]:
    """Return the verdict and the sentence of every finding on the office's page of a call."""
    page = browser.new_page()
    page.goto(f"{server.url}/office/calls/{call}")
    page.get_by_label("Name").fill(CASTELLANOS.name)
    page.get_by_label("Password").fill(CASTELLANOS.password)
    page.get_by_role("button", name="Sign in").click()
    page.goto(f"{server.url}/office/calls/{call}")
    cards = page.locator("article.finding").all()
    told = [(one.locator(".figure .verdict-word").inner_text(), one.locator(".because").inner_text()) for one in cards]
    page.close()
    return sorted(told)


def test_a_call_survives_no_signal_and_a_dead_phone(demo: Server, phone: Phone, chromium: Browser) -> None:
    technician = Technician(phone, demo.url)
    technician.settle_in()
    demo.kill()
    phone.context.set_offline(True)
    phone.page.reload()
    technician.wait_until_ready()

    call = technician.open_call("B3")
    take_the_round(technician)
    before = technician.verdicts()
    kept = technician.waiting()
    assert kept > 10

    phone.kill()
    phone.open()
    technician.arrive()
    assert technician.waiting() == kept
    technician.open_call("B3")
    assert technician.verdicts() == before
    prove_the_repair(technician)
    on_the_phone = technician.verdicts()
    assert len(on_the_phone) > len(before)

    demo.start()
    phone.page.reload()
    technician.wait_until_sent()
    answer = results(demo, call)
    assert spoken(answer["result"]) == on_the_phone
    shown = sorted((verdict.replace("_", " "), because) for _, _, verdict, because in on_the_phone)
    assert in_the_office(chromium, demo, call) == shown


def test_half_typed_digits_survive_a_dead_phone(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    technician.settle_in()
    technician.open_call("B3")
    technician.open_point("as_found", "line_voltage")
    technician.type_into("L1-L2", "478")
    technician.type_into("L2-L3", "48")
    address = phone.page.url
    phone.page.wait_for_timeout(300)
    phone.kill()
    phone.open()
    phone.page.goto(address)
    expect(phone.page.locator('.field[data-field="L1-L2"] .field-text')).to_have_text("478")
    expect(phone.page.locator('.field[data-field="L2-L3"] .field-text')).to_have_text("48")


def test_the_office_sends_a_call_back_and_the_phone_shows_why(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    technician.sign_in()
    call = technician.open_call("B3")
    technician.read("as_found", "oil_level", {"value": "0.5"})
    technician.tab("close")
    phone.page.get_by_label("Note to the office").fill("Breaker found open.")
    phone.page.get_by_role("button", name="Hand in to the office").click()
    expect(phone.page.get_by_text("Handed in.")).to_be_visible()
    technician.wait_until_sent()
    assert results(demo, call)["state"] == "submitted"

    send_back(demo, call, "Which breaker?")
    phone.page.reload()
    expect(phone.page.locator(".call-card", has_text="B3").first).to_contain_text("sent back", timeout=15_000)
    technician.open_call("B3")
    expect(phone.page.get_by_text("Which breaker?")).to_be_visible()


def send_back(server: Server, call: str, note: str) -> None:
    signed_in = {"name": CASTELLANOS.name, "password": CASTELLANOS.password, "device": "desk"}
    with httpx.Client(base_url=server.url + "/api/v1", trust_env=False, timeout=30) as client:
        token = client.post("/devices", json=signed_in).raise_for_status().json()["token"]
        client.headers["Authorization"] = f"Bearer {token}"
        review = {"id": "11111111-2222-4333-8444-555555555555", "outcome": "returned", "note": note}
        seen = client.get(f"/calls/{call}/results").raise_for_status().json()["entries"]
        client.post(f"/calls/{call}/reviews", json={**review, "seen": seen}).raise_for_status()


def test_another_person_on_the_phone_never_sends_what_the_first_left(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    technician.sign_in()
    call = technician.open_call("B3")
    phone.context.set_offline(True)
    technician.read("as_found", "oil_level", {"value": "0.5"})
    technician.sign_out()
    phone.context.set_offline(False)

    technician.sign_in(LINDQVIST.name, LINDQVIST.password)
    technician.wait_until_sent()
    expect(phone.page.get_by_text("of another sign-in wait for that person")).to_be_visible()
    assert results(demo, call)["result"]["rounds"] == []

    technician.sign_out()
    technician.sign_in()
    technician.wait_until_sent()
    assert len(results(demo, call)["result"]["rounds"]) == 1
