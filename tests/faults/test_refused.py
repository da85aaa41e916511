"""What the office refuses is corrected on the phone and arrives after all, with what leaned on it."""

import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from rackside.access import people
from rackside.records import Database
from tests.faults.pocket import Pocket, signed_in
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

PASSWORD = "a long enough password"


@pytest.fixture
def pocket(serve: Callable[..., Server], sqlite_url: str, phone: Phone) -> Pocket:
    database = Database(sqlite_url)
    database.migrate()
    with database.writing() as connection:
        people.add(connection, "T. Okafor", PASSWORD, "technician")
    database.close()
    server = serve(sqlite_url)
    opened = Pocket(phone, server.url)
    opened.begin(signed_in(server.url, "T. Okafor", PASSWORD))
    return opened


def test_a_refused_entry_is_corrected_and_takes_the_rest_with_it(pocket: Pocket, tmp_path: Path) -> None:
    """Each of the chain has an id before that of what it leans on: they go again in the order they were made."""
    me = pocket.told
    head = {"schema": 1, "call": None, "base": [], "made_at": "2026-10-14T21:40:00-05:00"}
    head |= {"device": me.device, "author": me.author}
    site = head | {"id": "11111111-0000-4000-8000-000000000009", "kind": "site", "body": {"name": "Cold", "typo": "x"}}
    leaning = {"site": site["id"], "tag": "B3", "rack": "B"}
    machine = head | {"id": "11111111-0000-4000-8000-000000000002", "kind": "machine", "body": leaning}
    call_id = "11111111-0000-4000-8000-000000000001"
    call = head | {"id": call_id, "kind": "call", "call": call_id, "body": {"machine": machine["id"]}}
    sound = head | {"id": "11111111-0000-4000-8000-000000000003", "kind": "site", "body": {"name": "Sound"}}
    assert pocket.keep([site, machine, call, sound], {}) == ""
    page = pocket.phone.page
    expect(page.get_by_text("3 entries refused by the office")).to_be_visible(timeout=30_000)
    refused = dict(pocket.held()["refused"])
    assert refused == {site["id"]: "invalid_body", machine["id"]: "missing_reference", call_id: "missing_reference"}
    page.evaluate("location.hash = '#/refused'")
    card = page.locator("article", has_text="invalid_body")
    card.get_by_text("Correct it").click()
    card.get_by_label("typo").fill("")
    card.get_by_role("button", name="Send the correction").click()
    expect(page.locator("article")).to_have_count(0, timeout=30_000)
    rows = all_sent(pocket)
    assert rows[site["id"]]["body"] == {"name": "Cold"}


def all_sent(pocket: Pocket) -> dict[str, Any]:
    """Wait until the office has given every entry its place; what never gets one fails here."""
    deadline = time.monotonic() + 60
    rows: dict[str, Any] = {}
    while time.monotonic() < deadline:
        rows = {row["id"]: row for row in pocket.held()["rows"]}
        if all(row["cursor"] for row in rows.values()):
            return rows
        time.sleep(0.2)
    raise AssertionError(f"never sent: {[name for name, row in rows.items() if not row['cursor']]}")
