"""The worked examples of the docs do what they say."""

import csv
import json
import os
import re
import subprocess
import sys
import uuid
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from rackside.api.errors import CODES
from rackside.client import Rackside, RacksideError
from rackside.records.outbox import EVENTS
from tests.server.house import MADE_AT, House, Phone, Story, story

PAGE = (Path(__file__).parents[2] / "server" / "docs" / "api.md").read_text(encoding="utf-8")
EXAMPLES = dict(re.findall(r"^### (.+?)\n.*?```python\n(.+?)```", PAGE, re.S | re.M))
Run = Callable[[str, House, str], str]


@pytest.fixture
def run(tmp_path: Path) -> Run:
    """Run an example of the page as somebody would who copied it."""

    def example(title: str, house: House, token: str) -> str:
        environment = os.environ | {"RACKSIDE_URL": house.url, "RACKSIDE_KEY": token}
        command = [sys.executable, "-c", EXAMPLES[title]]
        done = subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, text=True)
        assert done.returncode == 0, done.stderr
        return done.stdout

    return example


def token(phone: Phone) -> str:
    return phone.http.headers["authorization"].removeprefix("Bearer ")


@pytest.fixture
def told(small_house: House) -> Story:
    okafor = small_house.phone("T. Okafor")
    made = story(okafor)
    okafor.keep(*made.entries)
    return made


def test_the_page_has_its_three_examples() -> None:
    assert len(EXAMPLES) == 3


def test_a_scheduler_opens_a_call_once(small_house: House, told: Story, run: Run) -> None:
    key = small_house.key("scheduler", "read", "write", sites=[told.site])
    title = "A scheduler that opens calls"
    assert run(title, small_house, token(key)) == "opened W-1041\n"
    assert run(title, small_house, token(key)) == ""
    [opened] = key.get("/calls", assigned_to="T. Okafor")["items"]
    assert (opened["author"], opened["machine"]["tag"]) == ("scheduler", "B3")
    small_house.sign_in("T. Okafor").write("submission", {}, opened["id"])
    assert run(title, small_house, token(key)) == ""
    assert len(key.get("/calls", assigned_to="T. Okafor")["items"]) == 1


def test_a_warranty_system_pulls_what_changed(small_house: House, told: Story, run: Run, tmp_path: Path) -> None:
    okafor = small_house.sign_in("T. Okafor")
    key = small_house.key("warranty", "read")
    title = "A warranty system that pulls results"
    run(title, small_house, token(key))
    assert json.loads((tmp_path / "claims.json").read_text()) == {}
    okafor.write("decision", {"decision": "condemn", "cause": "grounded_winding"}, told.call)
    okafor.write("submission", {}, told.call)
    run(title, small_house, token(key))
    [claim] = json.loads((tmp_path / "claims.json").read_text()).values()
    assert (claim["cause"], claim["condemn_gate_open"]) == ("grounded_winding", False)
    mark = (tmp_path / "last.txt").read_text()
    assert int(mark) == okafor.get(f"/calls/{told.call}")["changed"]


def test_a_spreadsheet_gets_every_page_of_the_table(small_house: House, run: Run, tmp_path: Path) -> None:
    okafor = small_house.phone("T. Okafor")
    for number in range(3):
        made = story(okafor, f"B{number}")
        okafor.keep(*made.entries, okafor.make("submission", {}, made.call))
    key = small_house.key("spreadsheet", "read")
    short = EXAMPLES["A spreadsheet by CSV"].replace("limit=100", "limit=1")
    EXAMPLES["A short page at a time"] = short.replace('!= "pass"', '!= ""')
    run("A short page at a time", small_house, token(key))
    with (tmp_path / "results.csv").open() as file:
        lines = list(csv.DictReader(file))
    assert {line["tag"] for line in lines} == {"B0", "B1", "B2"}
    assert {line["site"] for line in lines} == {"Tannery Lane Cold Store"}


def test_what_the_page_says_of_writing_is_so(small_house: House, told: Story) -> None:
    """Open by the least there is, correct twice, announce a photo, take back: each by its row of the page."""
    key = small_house.key("scheduler", "read", "write", sites=[told.site])
    me, number = key.get("/me"), uuid.uuid5(uuid.NAMESPACE_URL, "the shop's job W-1042")
    head = {"schema": 1, "call": str(number), "made_at": MADE_AT, "device": me["device"], "author": me["person"]}
    opened = head | {"id": str(number), "kind": "call", "base": [], "body": {"machine": told.machine}}
    key.keep(opened)
    assert key.push(opened)["results"][0]["status"] == "repeated"
    call = key.get(f"/calls/{number}")
    assert datetime.fromisoformat(call["opened_at"]) == datetime.fromisoformat(MADE_AT)
    base = str(number)
    for name in ("T. Okafor", "R. Lindqvist"):
        correction = head | {"id": str(uuid.uuid4()), "kind": "call", "base": [base], "body": {"assigned_to": name}}
        key.keep(correction)
        base = correction["id"]
        assert key.get(f"/calls/{number}")["assigned_to"] == name
    key.keep(head | {"id": str(uuid.uuid4()), "kind": "call", "base": [base], "body": {"assigned_to": None}})
    assert key.get(f"/calls/{number}")["assigned_to"] is None
    shown = {"sha256": "a" * 64, "media_type": "image/jpeg", "size": 9, "shows": "alarm"}
    photo = head | {"id": str(uuid.uuid4()), "kind": "photo", "base": [], "body": shown}
    assert key.keep(photo)["photos_wanted"] == ["a" * 64]
    assert str(number) in {one["id"] for one in key.get("/calls", state="open")["items"]}
    back = {"of": str(number), "why": "the customer called it off"}
    key.keep(head | {"id": str(uuid.uuid4()), "kind": "retraction", "base": [], "body": back})
    assert str(number) not in {one["id"] for one in key.get("/calls", state="open")["items"]}


def test_every_event_and_scope_is_on_the_page() -> None:
    for word in (*EVENTS, "read", "write", "analyse", "admin"):
        assert f"| `{word}` |" in PAGE


def test_the_client_tells_a_refusal_as_the_server_does(small_house: House, told: Story) -> None:
    reader = small_house.key("reader", "read")
    with Rackside(small_house.url, token(reader)) as server:
        assert [call["id"] for call in server.calls()] == [told.call]
        with pytest.raises(RacksideError) as refused:
            server.call("nothing")
        assert (refused.value.code, refused.value.status) == ("not_found", 404)
        assert refused.value.remedy == CODES["not_found"].remedy
        with pytest.raises(RacksideError, match="not_allowed"):
            server.analyse({"machine": {}, "rounds": []})


def test_the_client_reads_every_page(small_house: House) -> None:
    okafor = small_house.phone("T. Okafor")
    with Rackside(small_house.url, token(okafor)) as server:
        sites = [server.entry("site", {"name": f"Site {number}"}) for number in range(501)]
        assert {result["status"] for result in server.push(sites)} == {"accepted"}
        assert {result["status"] for result in server.push(sites)} == {"repeated"}
        assert len(list(server.pull())) == 501
        site = sites[0]["id"]
        server.keep(*(server.entry("machine", {"site": site, "tag": f"B{number}"}) for number in range(60)))
        assert len({machine["id"] for machine in server.machines(site=site)}) == 60
