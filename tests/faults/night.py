"""One seeded night: phones in real browsers, an office and other software, a server that is killed and restored."""

import time
from pathlib import Path
from random import Random
from typing import Any

import httpx
from playwright.sync_api import Error

from rackside.records import archive, log, restoring
from tests.faults import demands
from tests.faults.pocket import PATIENCE, Pocket, signed_in
from tests.faults.premises import KEY, PASSWORD, PEOPLE, House
from tests.faults.replica import Cut, Replica, content
from tests.faults.web_line import WebLine
from tests.faults.writing import Photographer

Json = dict[str, Any]
YEAR_MS = 365 * 86_400_000
STEPS = (
    *("keep",) * 10,
    *("gateway",) * 3,
    *("review",) * 2,
    *("wait",) * 2,
    "reload",
    "tab",
    "clock",
    "full",
    "emptied",
    "battery",
    "kill",
    "backup",
    "restore",
)
ONCE = ("battery", "kill", "restore", "emptied")


class Night:
    """`work` does the steps, `quiet` heals every line and waits, `demand` says what must hold."""

    def __init__(self, seed: int, house: House) -> None:
        self.house, self.seed = house, seed
        self.database, self.proxy, self.pockets = house.database, house.proxy, house.pockets
        self.chance = Random(seed)
        self.writer = Photographer(self.chance)
        key = house.begin(seed)
        for pocket, name in zip(self.pockets, PEOPLE, strict=True):
            pocket.begin(signed_in(house.server.url, name, PASSWORD))
        self.gateway = Replica(key["id"], KEY)
        self.gateway_line = WebLine(_client(house.gateway_door, key["token"]))
        token = signed_in(house.server.url, "M. Castellanos", PASSWORD)["token"]
        self.office = _client(house.office_door, token)
        self.kept: dict[str, Json] = {}
        self.reviews: set[str] = set()
        self.doubtful: set[str] = set()
        self.backups: list[tuple[Path, frozenset[str]]] = []
        self.done: list[str] = []

    def work(self, steps: int) -> None:
        for pocket in self.pockets:
            self._keep(pocket, self.writer.plant(pocket.told))
        self.proxy.broken = True
        for _ in range(steps):
            name = self.chance.choice(STEPS)
            if name in ONCE and name in self.done:
                name = "keep"
            self.done.append(name)
            getattr(self, "_" + name)(self.chance.choice(self.pockets))

    def _keep(self, pocket: Pocket, entries: list[Json] | None = None) -> str:
        """Keep these, or something by chance; what the page says went wrong, or ""."""
        if entries is None:
            pocket.look()
            entries = [one for _ in range(self.chance.randrange(1, 6)) for one in self.writer.some(pocket.told)]
        trouble = pocket.keep(entries, self.writer.photos)
        if not trouble:
            self.kept |= {entry["id"]: entry for entry in entries}
        return trouble

    def _gateway(self, _pocket: Pocket) -> None:
        entries = self.writer.some(self.gateway)
        self.gateway.keep(*entries)
        self.kept |= {entry["id"]: entry for entry in entries}
        self._gateway_exchange()

    def _gateway_exchange(self) -> None:
        try:
            self.gateway.exchange(self.gateway_line)
        except Cut:
            pass

    def _review(self, _pocket: Pocket) -> None:
        calls = sorted(entry["id"] for entry in self.kept.values() if entry["kind"] == "call")
        told = {"id": self.writer.id(), "outcome": self.chance.choice(("accepted", "returned")), "seen": 1 << 40}
        address = f"/api/v1/calls/{self.chance.choice(calls)}/reviews"
        for _ in range(3):
            try:
                answer = self.office.post(address, json=told)
                answered = answer.json()
            except (httpx.HTTPError, ValueError):
                self.doubtful.add(told["id"])
                continue
            if answer.status_code in (200, 201) and isinstance(answered, dict):
                self.reviews.add(told["id"])
                return

    def _wait(self, _pocket: Pocket) -> None:
        time.sleep(self.chance.uniform(0.05, 0.3))

    def _reload(self, pocket: Pocket) -> None:
        pocket.phone.page.reload()

    def _tab(self, pocket: Pocket) -> None:
        pocket.other_tab()

    def _clock(self, pocket: Pocket) -> None:
        pocket.clock_jumps(self.chance.choice((YEAR_MS, -YEAR_MS, 0)))

    def _full(self, pocket: Pocket) -> None:
        """No room, also for what the server answers and sends; what waited before waits after it."""
        pocket.poke()
        with pocket.full():
            assert self._keep(pocket) == "QuotaExceededError", "the store was not full"
            pocket.poke()
            time.sleep(self.chance.uniform(0.1, 0.5))

    def _battery(self, pocket: Pocket) -> None:
        self._keep(pocket)
        pocket.poke()
        pocket.dies()

    def _emptied(self, pocket: Pocket) -> None:
        """Only what was sent can come back: wait for that, on a whole line."""
        self.proxy.broken = False
        self.house.wait_for_power()
        self._wait_until_sent(pocket)
        pocket.emptied()
        self.backups.clear()
        self.proxy.broken = True

    def _kill(self, pocket: Pocket) -> None:
        pocket.poke()
        time.sleep(self.chance.uniform(0, 0.05))
        self.house.powerless.set()

    def _backup(self, _pocket: Pocket) -> None:
        file = self.house.folder / f"backup-{self.seed}-{len(self.done)}.db"
        archive.backup(self.database, file)
        self.backups.append((file, frozenset(self.reviews)))

    def _restore(self, _pocket: Pocket) -> None:
        if not self.backups:
            self.done.remove("restore")
            return
        file, reviews = self.chance.choice(self.backups)
        self.doubtful |= self.reviews - reviews
        self.reviews &= reviews
        restoring.restore(self.database, file, self.house.folder / "photos")

    def _wait_until_sent(self, pocket: Pocket) -> None:
        """On a whole line nothing waits on this phone any more, and it has read all there is."""
        deadline, lacks = time.monotonic() + PATIENCE, "the page does not answer"
        while time.monotonic() < deadline:
            try:
                pocket.poke()
                time.sleep(0.1)
                lacks = self._lacking(pocket)
            except Error:
                time.sleep(0.2)
                continue
            if not lacks:
                return
        self.house.wait_for_power()
        raise AssertionError(f"a phone does not come to rest: {lacks}; it says: {pocket.says()}")

    def _lacking(self, pocket: Pocket) -> str:
        held = pocket.held()
        with self.database.reading() as connection:
            state = log.state(connection)
        if held["outbox"] or held["photos"]:
            return f"{len(held['outbox'])} entries and {held['photos']} photos wait"
        here, there = (held["cursor"], held["epoch"]), (state.cursor, state.epoch)
        return "" if here == there else f"it has read up to {here}, the log stands at {there}"

    def quiet(self) -> None:
        self.proxy.broken = False
        self.house.wait_for_power()
        for pocket in self.pockets:
            pocket.close_tabs()
        for _ in range(2):
            for pocket in self.pockets:
                self._wait_until_sent(pocket)
            self.gateway.exchange(self.gateway_line)

    def demand(self) -> None:
        with self.database.reading() as connection:
            held = log.documents(connection)
        demands.nothing_lost_doubled_or_changed(held, self.kept, self.reviews, self.doubtful)
        demands.no_gap(held)
        arrivals = [entry["received_at"] for entry in held]
        assert arrivals == sorted(arrivals), "every entry has the time at which it came, in order"
        logged = {entry["id"]: (entry["cursor"], content(entry)) for entry in held}
        for pocket in self.pockets:
            self._demand_same(pocket, logged)
        assert self._rows(self.gateway.store.rows.values()) == logged, "other software and server hold the same"
        self._demand_photos()
        demands.tables_follow_from_the_log(self.database)

    def _demand_same(self, pocket: Pocket, logged: dict[str, tuple[int, str]]) -> None:
        found = pocket.held()
        assert found["refused"] == [], "nothing sound was refused"
        rows = self._rows(found["rows"])
        apart = {name for name in rows.keys() | logged.keys() if rows.get(name) != logged.get(name)}
        assert not apart, f"phone and server hold the same, but for {[(rows.get(n), logged.get(n)) for n in apart]}"
        assert not pocket.phone.faults, f"the page failed: {pocket.phone.faults}"

    @staticmethod
    def _rows(rows: Any) -> dict[str, tuple[int, str]]:
        return {row["id"]: (row["cursor"], content(row)) for row in rows}

    def _demand_photos(self) -> None:
        """Every photo that a phone kept is whole on the server's disk."""
        phones = {pocket.session["device"] for pocket in self.pockets}
        for entry in self.kept.values():
            if entry["kind"] == "photo" and entry["device"] in phones:
                name = entry["body"]["sha256"]
                path = self.house.folder / "photos" / name[:2] / name
                assert path.read_bytes() == self.writer.photos[name], "a photo is lost"


def _client(address: str, token: str) -> httpx.Client:
    return httpx.Client(
        base_url=address, headers={"Authorization": f"Bearer {token}"}, trust_env=False, timeout=PATIENCE
    )
