"""Pages of the office over a long history: 30,000 calls, then 100,000 with five million readings, on each database.

The rows are laid straight into the typed tables: nobody types five million readings. Bounded: one history each, MOST
requests a page in PASSES passes, of which the quietest counts: the machine does other things meanwhile.
"""

import random
import statistics
import time
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import httpx
import pytest
from sqlalchemy import Connection, text

from rackside.records import Database, clock
from rackside.records.bulk import insert_many
from rackside.records.rows import TABLES
from tests.server.house import PASSWORD, House, Phone, running, story

BUDGET_MS = 50.0
# log(100,000) / log(30,000) is 1.12; the rest is the noise of a machine that does other things too. In both, each
# machine has the hundred visits that trends show.
GROWTH, NOISE_MS = 1.12, 6.0
SMALL, LARGE = 30_000, 100_000
MACHINES, SITES, ROUNDS_A_CALL, READINGS_A_ROUND = 300, 20, 2, 25
MOST, PASSES = 20, 8
CHECKS = ("insulation", "pole_drop", "net_oil_pressure", "current_against_expected", "running_current_unbalance")
CHECKS += ("start_current", "start_rate", "supply_voltage_unbalance")
NOW = datetime.now(UTC)
# The change that came last; a history grows backwards here, so that what is open today is the same in both.
LAST = 1_000_000
COMPLAINTS = ("routine", "routine", "routine", "oil_trip", "overload_trip", "breaker_trip", "noise", "no_start")
PHASES = ("accepted",) * 46 + ("submitted", "returned", "open", "open")
CAUSES = (None, "floodback", "contactor_pole", "seized", "head_fan")
NUMBERS = "with recursive n(i) as (select 1 union all select i + 1 from n where i < {most}) "


def _call(number: int, chance: random.Random) -> dict[str, Any]:
    opened = NOW - timedelta(minutes=26 * number)
    phase = PHASES[number % len(PHASES)]
    watched = phase == "accepted" and number % 9 == 0
    machine = number % MACHINES
    return {
        "id": f"call-{number}",
        "machine_id": f"machine-{machine}",
        "site_id": f"site-{machine % SITES}",
        "complaint": chance.choice(COMPLAINTS),
        "opened_at": clock.written(opened),
        "assigned_to": f"Technician {number % 60}",
        "follows": None,
        "author": f"Technician {number % 60}",
        "phase": phase,
        "decision": "restart" if phase == "accepted" else None,
        "cause": chance.choice(CAUSES),
        "watch_until": clock.written(opened + timedelta(days=14)) if watched else None,
        "settled_at": clock.written(opened),
        "retracted": False,
        "changed": LAST - number,
        "changed_at": clock.written(opened),
        "body": '{"reported": "it stopped in the night"}',
    }


def _register(connection: Connection) -> None:
    now = {"changed": 1, "changed_at": clock.written(NOW), "retracted": False}
    plain = {"time_zone": "America/Chicago", "arrivals": 0}
    sites = [
        {"id": f"site-{one}", "name": f"Store {one}", "body": f'{{"name": "Store {one}"}}'} for one in range(SITES)
    ]
    insert_many(connection, TABLES["site"], [site | plain | now for site in sites])
    plate = {"type": None, "refrigerant": "R-448A", "retired": False, "same_as": None, "confirmed": True}
    machines = [
        {"id": f"machine-{one}", "site_id": f"site-{one % SITES}", "rack": "A", "tag": f"A{one}", "body": "{}"}
        for one in range(MACHINES)
    ]
    insert_many(connection, TABLES["machine"], [machine | plate | now for machine in machines])


def _extend(connection: Connection, first: int, last: int) -> None:
    """Lay calls first..last-1 with their rounds, readings, judgements' findings and words."""
    chance = random.Random(7)
    insert_many(connection, TABLES["call"], [_call(number, chance) for number in range(first, last)])
    oldest, newest = LAST - last + 1, LAST - first
    new = f"changed between {oldest} and {newest}"
    for place, label in enumerate(("as_found", "as_left")):
        connection.execute(
            text(
                f"insert into rounds (id, call_id, machine_id, label, at, cursor, body) select id || '-{place}', id, "
                f"machine_id, '{label}', opened_at, changed * 1000 + {place} * 100, '{{}}' from calls where {new}"
            )
        )
    connection.execute(
        text(
            NUMBERS.format(most=READINGS_A_ROUND)
            + "insert into readings (cursor, id, round_id, call_id, point, at, body) "
            "select rounds.cursor + i, rounds.id || '-' || i, rounds.id, call_id, 'running_current', at, "
            """'{"legs":{"L1":"33.1","L2":"33.4","L3":"33.0"},"unit":"A"}' """
            f"from rounds, n where rounds.cursor between {oldest * 1000} and {newest * 1000 + 999}"
        )
    )
    for check in CHECKS:
        connection.execute(
            text(
                'insert into findings (call_id, machine_id, round_id, label, at, "check", value, unit, uncertainty, '
                f"verdict, legs, detail) select id, machine_id, id || '-1', 'as_left', opened_at, '{check}', "
                f"changed % 97, '%', 0.5, 'pass', '[]', '{{}}' from calls where {new}"
            )
        )
    connection.execute(
        text(
            "insert into verdicts (call_id, judgement_id, upto, meters, verdict) "
            f"select id, changed, changed, '[]', 'pass' from calls where {new}"
        )
    )
    for word in ("oil", "night", "'|| substr(id, 6) ||'"):
        connection.execute(
            text(f"insert into words (word, thing_id, cursor) select '{word}', id, changed from calls where {new}")
        )


class Bench:
    """One server, and somebody who asks its pages over and over."""

    def __init__(self, house: House) -> None:
        self.house = house
        self.phone: Phone = house.phone("Bench reader", "office")
        told = story(self.phone)
        self.phone.keep(*told.entries)
        self.real_call = told.call
        self.http = httpx.Client(base_url=house.url, trust_env=False, timeout=60, headers={"origin": house.url})
        asked = {"name": "Bench reader", "password": PASSWORD}
        assert self.http.post("/office/sign-in", data=asked).status_code == 303
        self.http.headers["authorization"] = self.phone.http.headers["authorization"]

    def pages(self, calls: int) -> dict[str, str]:
        deep = f"/office/calls?next={LAST - calls // 2}~call-{calls // 2}"
        return {
            "results of a call": f"/api/v1/calls/{self.real_call}/results",
            "machine trends": "/api/v1/machines/machine-7/trends",
            "trends as plots": "/office/machines/machine-7/trends",
            "call list": "/office/calls",
            "call list, deep": deep,
            "calls of one state": "/office/calls?state=returned",
            "calls under watch": "/office/calls?state=watching",
            "calls closed": "/office/calls?state=closed",
            "calls of a site": "/office/calls?site=site-3",
            "calls by complaint and cause": "/office/calls?complaint=no_start&cause=seized",
            "calls of a technician": "/office/calls?assigned_to=Technician+17&state=open",
            "today": "/office",
            "fleet of 300, worst first": "/office/fleet",
            "a site, worst first": "/office/sites/site-3",
            "search, a common word": "/office/search?q=night",
            "search, two words": f"/office/search?q=oil+{calls // 3}",
        }

    def milliseconds(self, path: str) -> list[float]:
        taken = []
        for _ in range(MOST):
            begun = time.perf_counter()
            answer = self.http.get(path)
            taken.append(1000 * (time.perf_counter() - begun))
            assert answer.status_code == 200, answer.text[:300]
        return sorted(taken)


@pytest.fixture(params=["sqlite", "postgresql"])
def bench(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Bench]:
    if request.param == "sqlite":
        url = f"sqlite:///{tmp_path / 'history.db'}"
    else:
        cluster = request.getfixturevalue("postgres_cluster")
        cluster.run("create database history")
        url = cluster.url("history")
    with running(url, tmp_path) as house:
        with house.database.writing() as connection:
            _register(connection)
        yield Bench(house)


def test_pages_stay_within_budget_however_long_the_history(bench: Bench) -> None:
    small = _measured(bench, 0, SMALL)
    large = _measured(bench, SMALL, LARGE)
    over, grown = [], []
    for page, (middle, late) in large.items():
        before = small[page][0]
        print(f"  {page:32} p50 {before:6.1f} -> {middle:6.1f} ms   p95 {small[page][1]:6.1f} -> {late:6.1f} ms")
        over += [(page, late)] if late > BUDGET_MS else []
        grown += [(page, before, middle)] if middle > GROWTH * before + NOISE_MS else []
    assert over == []
    assert grown == []


def _measured(bench: Bench, first: int, last: int) -> dict[str, tuple[float, float]]:
    begun = time.perf_counter()
    with bench.house.database.writing() as connection:
        _extend(connection, first, last)
    _settle(bench.house.database)
    readings = last * ROUNDS_A_CALL * READINGS_A_ROUND
    print(f"\n{bench.house.database.url.get_backend_name()}: {last} calls, {readings} readings, laid in", end=" ")
    print(f"{time.perf_counter() - begun:.1f} s")
    found = {}
    for page, path in bench.pages(last).items():
        bench.http.get(path)
        passes = [bench.milliseconds(path) for _ in range(PASSES)]
        found[page] = (
            min(statistics.median(taken) for taken in passes),
            min(taken[int(0.95 * MOST) - 1] for taken in passes),
        )
    return found


def _settle(database: Database) -> None:
    """Let PostgreSQL count its rows, as its own housekeeping would; SQLite plans without counting."""
    if not database.sqlite:
        with database.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            connection.execute(text("analyze"))
