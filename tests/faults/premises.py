"""Where the nights happen: a real server that loses its power, a line to each client, and the phones' browsers."""

import threading
import time
from pathlib import Path
from typing import Any

from rackside.access import devices, people
from rackside.records import Database
from tests.faults.inside import empty
from tests.faults.pocket import PATIENCE, Pocket
from tests.faults.proxy import Proxy
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

Json = dict[str, Any]
PEOPLE, PASSWORD, KEY = ("T. Okafor", "R. Lindqvist"), "a long enough password", "meter gateway"


class House:
    """What stays over all nights: a server, the lines to it, and the phones' browsers."""

    def __init__(self, folder: Path, database_url: str, phones: list[Phone]) -> None:
        self.folder = folder
        self.database = Database(database_url)
        self.database.migrate()
        self.server = Server(folder, database_url, RACKSIDE_PHOTOS=str(folder / "photos")).start()
        self.proxy = Proxy(self.server.port, self._cut_power)
        self.powerless, self.cuts, self.powered, self.over = threading.Event(), 0, True, False
        self.mains = threading.Thread(target=self._restore_power)
        self.mains.start()
        # The second phone's browser knows no Web Locks.
        doors = [self._door(name) for name in PEOPLE]
        self.pockets = [Pocket(phones[0], doors[0]), Pocket(phones[1], doors[1], locks=False)]
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
        deadline = time.monotonic() + PATIENCE
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
