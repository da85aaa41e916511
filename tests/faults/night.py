"""One seeded night: phones in real browsers, an office and other software, a server that is killed and restored."""

import threading
import time
from hashlib import sha256
from pathlib import Path
from random import Random
from typing import Any

import httpx
from playwright.sync_api import Error

from rackside.access import devices, people
from rackside.records import Database, archive, log, projection, restoring
from tests.faults.inside import empty
from tests.faults.pocket import Pocket, signed_in
from tests.faults.proxy import Proxy
from tests.faults.replica import Cut, Replica, content
from tests.faults.web_line import WebLine
from tests.faults.writing import Writer
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

Json = dict[str, Any]
PEOPLE, PASSWORD, KEY = ("T. Okafor", "R. Lindqvist"), "a long enough password", "meter gateway"
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


class Photographer(Writer):
    """A writer whose photos have bytes."""

    def __init__(self, chance: Random) -> None:
        super().__init__(chance)
        self.photos: dict[str, bytes] = {}

    def _photo(self, phone: Replica) -> list[Json] | None:
        picture = b"\x89PNG\r\n\x1a\n" + self.chance.randbytes(2000)
        name = sha256(picture).hexdigest()
        self.photos[name] = picture
        return self._in_a_call(phone, "photo", {"sha256": name, "media_type": "image/png", "shows": "oil"})


class House:
    """What stays over all nights: a server, the lines to it, and the phones' browsers."""

    def __init__(self, folder: Path, phones: list[Phone]) -> None:
        self.folder = folder
        self.database = Database(f"sqlite:///{folder / 'rackside.db'}")
        self.database.migrate()
        self.server = Server(folder, str(self.database.url), RACKSIDE_PHOTOS=str(folder / "photos")).start()
        self.proxy = Proxy(self.server.port, self._cut_power)
        self.powerless, self.cuts, self.powered, self.over = threading.Event(), 0, True, False
        self.mains = threading.Thread(target=self._restore_power)
        self.mains.start()
        self.pockets = [Pocket(phone, self._door(name)) for phone, name in zip(phones, PEOPLE, strict=True)]
        self.gateway_door, self.office_door = self._door("gateway"), self._door("office")

    def _door(self, name: str) -> str:
        return f"http://127.0.0.1:{self.proxy.door(name)}"

    def _cut_power(self) -> None:
        """Kill the server as a power cut would; at most once a night by chance, because starting takes its time."""
        if self.cuts < 1 and not self.powerless.is_set():
            self.cuts += 1
            self.powerless.set()

    def _restore_power(self) -> None:
        while not self.over:
            if self.powerless.wait(0.05):
                self.server.kill()
                self.powered = self._started()
                self.powerless.clear()

    def _started(self) -> bool:
        try:
            self.server.start()
        except BaseException as failed:
            print(failed)
            return False
        return True

    def wait_for_power(self) -> None:
        deadline = time.monotonic() + 90
        while self.powerless.is_set() and time.monotonic() < deadline:
            time.sleep(0.05)
        assert self.powered and not self.powerless.is_set(), "the server does not come back"

    def begin(self, seed: int) -> Json:
        """An empty log, the same people; the key of the other software is the answer."""
        self.wait_for_power()
        self.proxy.begin(seed)
        self.cuts = 0
        empty(self.database)
        with self.database.writing() as connection:
            for name in PEOPLE:
                people.add(connection, name, PASSWORD, "technician")
            people.add(connection, "M. Castellanos", PASSWORD, "office")
            return devices.add_key(connection, KEY, ["read", "write"], None, None)

    def close(self) -> None:
        self.over = True
        self.mains.join()
        self.server.kill()
        self.proxy.close()
        self.database.close()


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

    def _keep(self, pocket: Pocket, entries: list[Json] | None = None) -> None:
        if entries is None:
            pocket.look()
            entries = [one for _ in range(self.chance.randrange(1, 6)) for one in self.writer.some(pocket.told)]
        trouble = pocket.keep(entries, self.writer.photos)
        if not trouble:
            self.kept |= {entry["id"]: entry for entry in entries}

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
        """No room: what the page then says is kept must be kept, and what it says is not need not be."""
        pocket.protocol("Storage.overrideQuotaForOrigin", quotaSize=1)
        self._keep(pocket)
        pocket.protocol("Storage.overrideQuotaForOrigin")

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
        """A whole line, and a while: nothing waits on this phone, and it has read all there is."""
        deadline = time.monotonic() + 90
        while time.monotonic() < deadline:
            try:
                pocket.poke()
                time.sleep(0.1)
                held = pocket.held()
            except Error:
                time.sleep(0.2)
                continue
            with self.database.reading() as connection:
                state = log.state(connection)
            if (
                not held["outbox"]
                and not held["photos"]
                and (held["cursor"], held["epoch"]) == (state.cursor, state.epoch)
            ):
                return
        self.house.wait_for_power()
        raise AssertionError(f"a phone's queue does not empty: {held['outbox']}, photos {held['photos']}")

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
        ids = [entry["id"] for entry in held]
        assert len(ids) == len(set(ids)), "no entry is there twice"
        lost = self.kept.keys() - set(ids)
        assert not lost, f"{len(lost)} of {len(self.kept)} entries acknowledged to a person are lost"
        assert self.reviews <= set(ids), "a review is lost"
        assert set(ids) <= self.kept.keys() | self.reviews | self.doubtful, "nobody was told that this entry is kept"
        changed = [entry["id"] for entry in held if entry["id"] in self.kept and not self._as_made(entry)]
        assert not changed, "an entry was changed on the way"
        assert [entry["cursor"] for entry in held] == list(range(1, len(held) + 1)), "the log has no gap"
        arrivals = [entry["received_at"] for entry in held]
        assert arrivals == sorted(arrivals), "every entry has the time at which it came, in order"
        logged = {entry["id"]: (entry["cursor"], content(entry)) for entry in held}
        for pocket in self.pockets:
            found = pocket.held()
            assert found["refused"] == [], "nothing sound was refused"
            rows = self._rows(found["rows"])
            apart = {name for name in rows.keys() | logged.keys() if rows.get(name) != logged.get(name)}
            assert not apart, f"phone and server hold the same, but for {[(rows.get(n), logged.get(n)) for n in apart]}"
            assert not pocket.phone.faults, f"the page failed: {pocket.phone.faults}"
        assert self._rows(self.gateway.store.rows.values()) == logged, "other software and server hold the same"
        self._demand_photos()
        with self.database.writing() as connection:
            before = projection.fingerprint(connection)
            projection.rebuild(connection)
            assert projection.fingerprint(connection) == before, "the tables rebuilt from the log are the same"

    @staticmethod
    def _rows(rows: Any) -> dict[str, tuple[int, str]]:
        return {row["id"]: (row["cursor"], content(row)) for row in rows}

    def _as_made(self, entry: Json) -> bool:
        return content(entry) == content(self.kept[entry["id"]])

    def _demand_photos(self) -> None:
        """Every photo that a phone kept is whole on the server's disk."""
        phones = {pocket.session["device"] for pocket in self.pockets}
        for entry in self.kept.values():
            if entry["kind"] == "photo" and entry["device"] in phones:
                name = entry["body"]["sha256"]
                path = self.house.folder / "photos" / name[:2] / name
                assert path.read_bytes() == self.writer.photos[name], "a photo is lost"


def _client(address: str, token: str) -> httpx.Client:
    return httpx.Client(base_url=address, headers={"Authorization": f"Bearer {token}"}, trust_env=False, timeout=20)
