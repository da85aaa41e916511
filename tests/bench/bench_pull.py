"""Pull for a person with one site of a thousand, from a log of a million entries."""

import json
import sqlite3
import time
from pathlib import Path
from statistics import quantiles

from rackside.records import Database, log

SITES, CALLS, ENTRIES = 1000, 10, 100
BUDGET = 0.05
OLD = "2020-01-01T00:00:00.000000Z"


def fill(path: Path) -> int:
    """Write a million entries: every site has ten calls, eight of them settled long ago; the sites take turns."""
    with sqlite3.connect(path) as file:
        file.execute("PRAGMA synchronous=OFF")
        calls = [(f"call-{site}-{call}", f"site-{site}", call) for call in range(CALLS) for site in range(SITES)]
        file.executemany(
            "INSERT INTO calls (id, machine_id, site_id, author, phase, settled_at, retracted, changed, changed_at,"
            " body) VALUES (?, 'm', ?, 'a', ?, ?, 0, ?, '', '{}')",
            (
                (
                    name,
                    site,
                    "accepted" if call < 8 else "open",
                    OLD if call < 8 else None,
                    (call + 1) * SITES * ENTRIES,
                )
                for name, site, call in calls
            ),
        )
        document = json.dumps({"text": "x" * 380})
        rows = (
            (cursor, f"entry-{cursor}", f"call-{site}-{call}", f"site-{site}", document)
            for cursor, (call, _, site) in enumerate(
                ((call, step, site) for call in range(CALLS) for step in range(ENTRIES) for site in range(SITES)), 1
            )
        )
        file.executemany(
            "INSERT INTO entries (cursor, id, kind, call_id, site_id, author, device, received_at, content_hash,"
            " document) VALUES (?, ?, 'reading', ?, ?, 'a', 'd', '', '', ?)",
            rows,
        )
        total = SITES * CALLS * ENTRIES
        file.execute("UPDATE log_state SET cursor = ?", (total,))
    return total


def test_few_sites_pull_little_from_a_long_log(tmp_path: Path) -> None:
    database = Database(f"sqlite:///{tmp_path / 'long.db'}")
    database.migrate()
    total = fill(tmp_path / "long.db")
    spans, found, after = [], 0, 0
    for site in range(0, SITES, SITES // 50):
        after = 0
        while True:
            begun = time.perf_counter()
            with database.reading() as connection:
                page = log.page(connection, [f"site-{site}"], after, 100)
            spans.append(time.perf_counter() - begun)
            found, after = found + len(page.documents), page.cursor
            if not page.more:
                break
        assert after == total
    p95 = quantiles(spans, n=20)[-1]
    print(f"\n{total} entries, one site of {SITES}: a page in {p95 * 1000:.1f} ms (p95; budget {BUDGET * 1000:.0f} ms)")
    assert found == 50 * 2 * ENTRIES
    assert p95 <= BUDGET
