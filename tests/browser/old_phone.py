"""The store of a phone as a version of the page left it: written once for each version of the store, kept for ever.

`python -m tests.browser.old_phone ADDRESS` (a demo server's) writes the file of the version at hand.
"""

import json
import re
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from playwright.sync_api import Page, sync_playwright

from rackside import phone as page_files
from tests.browser.technician import Technician
from tests.browser.within import within
from tests.fixtures.browsers import Phone

SHIPPED = Path(__file__).parents[1] / "faults" / "shipped"
Json = dict[str, Any]
# What the engine says goes with the engine, and a token with its server.
MADE_ANEW = ("words", "proved", "session")
# One refused entry, one photo whose entry waits, and a sign that waits: all that a version must bring along.
HOLD = """
    const { settle } = await import("/storage/log.js");
    const wrong = sign({ sign: "no such sign", present: true });
    const { sha256Of } = await import("/app/shrink.js");
    const bytes = await (await fetch("/icon-180.png")).arrayBuffer();
    const sha256 = await sha256Of(bytes);
    const photo = { ...sign({ sha256, media_type: "image/png", shows: "oil" }), kind: "photo" };
    await keep([wrong, sign({ sign: "knock", present: true })]);
    await keep([photo], [{ sha256, media_type: "image/png", entry: photo.id, bytes }]);
    const answer = { id: wrong.id, status: "refused", code: "invalid_body", detail: "d", remedy: "r" };
    await settle([answer], (await allMeta()).epoch);
"""
# Photo bytes stand as {"bytes": [...]}; of what was pulled only the open call and its machine go along.
DUMP = """
    const { transact } = await import("/storage/database.js");
    const names = ["entries", "outbox", "refused", "machines", "photos", "meta"];
    return transact(names, "readonly", async (tx) => {
        const { machine } = (await tx.objectStore("entries").get(call)).entry.body;
        const entries = (row) => row.call === call || row.id === machine;
        const shown = { entries, machines: (row) => row.id === machine };
        const plain = (value) => value?.bytes ? { ...value, bytes: [...new Uint8Array(value.bytes)] } : value;
        const stores = {};
        for (const name of names) {
            const store = tx.objectStore(name);
            const indexes = [...store.indexNames].map((one) => store.index(one));
            const [keys, values] = await Promise.all([store.getAllKeys(), store.getAll()]);
            const rows = values.map((value, i) => [keys[i], value]).filter(([, value]) => shown[name]?.(value) ?? true);
            stores[name] = {
                keyPath: store.keyPath, autoIncrement: store.autoIncrement,
                indexes: indexes.map(({ name, keyPath, unique }) => ({ name, keyPath, unique })),
                rows: rows.map(([key, value]) => [key, plain(value)]),
            };
        }
        return { version: tx.db.version, call, stores };
    });
"""
LOAD = """({ version, stores }) => new Promise((done, fail) => {
    const asked = indexedDB.open("rackside", version);
    asked.onupgradeneeded = () => {
        for (const [name, { keyPath, autoIncrement, indexes, rows }] of Object.entries(stores)) {
            const store = asked.result.createObjectStore(name, { keyPath, autoIncrement });
            for (const { name, keyPath, unique } of indexes) store.createIndex(name, keyPath, { unique });
            for (const [key, value] of rows) {
                const whole = value?.bytes ? { ...value, bytes: new Uint8Array(value.bytes).buffer } : value;
                keyPath === null ? store.put(whole, key) : store.put(whole);
            }
        }
    };
    asked.onsuccess = () => { asked.result.close(); done(); };
    asked.onerror = () => fail(asked.error);
})"""


def store_version() -> int:
    source = (page_files.WEB / "storage/database.js").read_text()
    return int(re.search(r"^const VERSION = (\d+);", source, re.M)[1])


def file_of(version: int) -> Path:
    return SHIPPED / f"phone_{version:04}.json"


def load(page: Page, shipped: Json, **facts: Any) -> None:
    """Lay the store down in the page's origin, before the page itself opens it; `facts` replace what fits no more."""
    rows = shipped["stores"]["meta"]["rows"]
    rows[:] = [row for row in rows if row[0] not in facts] + list(facts.items())
    page.evaluate(LOAD, shipped)


def write(address: str) -> None:
    with TemporaryDirectory() as folder, sync_playwright() as playwright:
        phone = Phone(playwright, Path(folder))
        technician = Technician(phone, address)
        technician.settle_in()
        technician.open_call("B3")
        technician.wait_until_sent()
        technician.tab("measure")
        phone.context.set_offline(True)
        technician.read("as_found", "oil_level", {"value": "0.5"})
        within(phone.page, HOLD)
        shipped = within(phone.page, DUMP)
        phone.close()
    meta = shipped["stores"]["meta"]
    meta["rows"] = [row for row in meta["rows"] if row[0] not in MADE_ANEW]
    file_of(store_version()).write_text(json.dumps(shipped) + "\n")


if __name__ == "__main__":
    write(sys.argv[1])
