"""What a phone can't send goes by hand: to another phone or to the office, each entry as it was made."""

import json
from pathlib import Path

import httpx
import pytest
from playwright.sync_api import expect

from seed_demo.people import CASTELLANOS, LINDQVIST
from tests.browser.places import entries_of
from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server


@pytest.fixture
def stranded(demo: Server, phone: Phone) -> Technician:
    """A technician with two entries and no line."""
    technician = Technician(phone, demo.url)
    technician.settle_in()
    technician.open_call("B3")
    phone.context.set_offline(True)
    technician.read("as_found", "oil_level", {"value": "0.5"})
    return technician


@pytest.fixture
def written(stranded: Technician, tmp_path: Path) -> Path:
    stranded.go("#/carry")
    with stranded.page.expect_download() as download:
        stranded.page.get_by_role("button", name="Write 2 entries to a file").click()
    path = tmp_path / "unsent.json"
    download.value.save_as(path)
    return path


def made(entries: list[dict]) -> list[tuple]:
    return sorted((one["id"], one["author"], one["device"], json.dumps(one["body"], sort_keys=True)) for one in entries)


def take_in(technician: Technician, file: Path) -> None:
    technician.go("#/carry")
    technician.page.get_by_label("Take a file in").set_input_files(file)


def test_the_same_person_sends_it_from_another_phone(
    demo: Server, stranded: Technician, written: Path, phones: object
) -> None:
    other = Technician(phones(), demo.url)
    other.sign_in()
    take_in(other, written)
    expect(other.page.get_by_text("2 entries from T. Okafor taken in.")).to_be_visible()
    other.wait_until_sent()
    ids = {one["id"] for one in json.loads(written.read_text())["entries"]}
    arrived = [one for one in entries_of(demo, stranded.call) if one["id"] in ids]
    assert made(arrived) == made(json.loads(written.read_text())["entries"])

    take_in(other, written)
    expect(other.page.get_by_text("0 entries from T. Okafor taken in, 2 were here already.")).to_be_visible()
    stranded.phone.context.set_offline(False)
    stranded.wait_until_sent()
    assert len([one for one in entries_of(demo, stranded.call) if one["kind"] == "reading"]) == 1


def test_a_colleague_carries_it_and_the_office_takes_it(
    demo: Server, stranded: Technician, written: Path, phones: object, tmp_path: Path
) -> None:
    other = Technician(phones(), demo.url)
    other.sign_in(LINDQVIST.name, LINDQVIST.password)
    take_in(other, written)
    other.go("#/")
    expect(other.page.get_by_text("2 of another sign-in wait for that person")).to_be_visible()
    other.go("#/carry")
    with other.page.expect_download() as download:
        other.page.get_by_role("button", name="Write 2 entries to a file").click()
    carried = tmp_path / "carried.json"
    download.value.save_as(carried)

    with httpx.Client(base_url=demo.url, trust_env=False, timeout=30, headers={"origin": demo.url}) as office:
        office.post("/office/sign-in", data={"name": CASTELLANOS.name, "password": CASTELLANOS.password})
        told = office.post("/office/import", files={"file": carried.read_bytes()}).text
        assert "2 taken in, 0 here already, 0 refused" in told
        assert "0 taken in, 2 here already" in office.post("/office/import", files={"file": carried.read_bytes()}).text
    assert set(made(json.loads(written.read_text())["entries"])) <= set(made(entries_of(demo, stranded.call)))
    other.page.reload()
    other.wait_until_sent()
    expect(other.page.get_by_text("of another sign-in wait for that person")).to_have_count(0)


@pytest.mark.parametrize(
    ("content", "told"),
    [("{", "can't be read"), ('{"file": "something else"}', "not a file of unsent entries"),
     ('{"file": "rackside unsent entries", "version": 2}', "A newer version wrote this file")],
)  # fmt: skip
def test_a_file_that_cannot_be_taken_is_told(
    demo: Server, phone: Phone, tmp_path: Path, content: str, told: str
) -> None:
    technician = Technician(phone, demo.url)
    technician.sign_in()
    (tmp_path / "odd.json").write_text(content)
    take_in(technician, tmp_path / "odd.json")
    expect(phone.page.locator(".trouble")).to_contain_text(told)
