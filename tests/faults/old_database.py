"""The tables of a server as a version of it left them: written once for each revision of the schema, kept for ever.

`python -m tests.faults.old_database` writes the file of the revision at hand.
"""

import json
import tempfile
from pathlib import Path
from typing import Any

from sqlalchemy import MetaData

from rackside.records import Database
from rackside.records.migrations import newest
from rackside.records.outbox import EVENTS
from tests.server.house import House, running, story

SHIPPED = Path(__file__).parent / "shipped"
Json = dict[str, Any]


def file_of(revision: str) -> Path:
    return SHIPPED / f"revision_{revision}.json"


def live_in(house: House) -> None:
    """Two sites, people who see all or one, a key with a webhook, calls sent and reviewed; no photos and no meters."""
    phone = house.phone("T. Okafor")
    told = story(phone)
    other = story(phone, tag="B1")
    phone.keep(*told.entries, *other.entries)
    sign = phone.write("sign", {"sign": "knock", "present": True}, told.call)
    phone.write("sign", {"sign": "knock", "present": False}, told.call, base=[sign["id"]])
    phone.write("sign", {"sign": "growl", "present": True}, told.call, base=[sign["id"]])
    phone.write("submission", {"note": "oil"}, told.call)
    house.phone("R. Lindqvist", sites=[told.site]).write("sign", {"sign": "growl", "present": True}, told.call)
    office = house.phone("M. Castellanos", "office")
    seen = office.get("/entries", limit=1000)["cursor"]
    review = {"id": "6f0b2f0e-9c0d-4a55-8a57-0f8f2a5f3b11", "outcome": "returned", "seen": seen, "note": "Again"}
    assert office.http.post(f"/api/v1/calls/{told.call}/reviews", json=review).status_code == 201
    key = house.key("gateway", "read", "write", "admin")
    hook = {"url": "http://127.0.0.1:9/heard", "events": list(EVENTS)}
    answer = key.http.post("/api/v1/webhooks", json=hook)
    assert answer.status_code == 201, answer.text
    phone.write("submission", {}, told.call)


def write() -> None:
    with (
        tempfile.TemporaryDirectory() as folder,
        running(f"sqlite:///{folder}/own.db", Path(folder), webhooks_private=True) as house,
    ):
        live_in(house)
        tables = rows_of(house.database)
    shipped = {"revision": newest(), "tables": tables}
    file_of(newest()).write_text(json.dumps(shipped, indent=1) + "\n")


def rows_of(database: Database) -> dict[str, list[Json]]:
    known = MetaData()
    known.reflect(database.engine)
    with database.reading() as connection:
        found = {table.name: connection.execute(table.select()).mappings() for table in known.sorted_tables}
        return {name: [dict(row) for row in rows] for name, rows in found.items() if name != "alembic_version"}


if __name__ == "__main__":
    write()
