"""`rackside backup` while phones write, `rackside restore` over what is there, and phones that give back the rest."""

import threading
from pathlib import Path
from typing import Any

import httpx
import pytest

from tests.faults.replica import Replica, content
from tests.faults.web_line import WebLine
from tests.fixtures.servers import Server
from tests.server.house import Phone, story

PASSWORD = "a long enough password"
PEOPLE = ("T. Okafor", "R. Lindqvist")


@pytest.fixture
def server(serve: Any, database_url: str, tmp_path: Path) -> Server:
    started: Server = serve(database_url, RACKSIDE_PHOTOS=str(tmp_path / "photos"))
    for name in PEOPLE:
        started.run("user", "add", name, "--password", PASSWORD)
    return started


def sign_in(server: Server, name: str) -> tuple[Phone, Replica]:
    asked = {"name": name, "password": PASSWORD, "device": "phone"}
    told = httpx.post(f"{server.url}/api/v1/devices", json=asked, trust_env=False, timeout=60).raise_for_status().json()
    headers = {"Authorization": f"Bearer {told['token']}"}
    http = httpx.Client(base_url=server.url, headers=headers, trust_env=False, timeout=60)
    return Phone(http, name, told["device"]), Replica(told["device"], name)


class Typing:
    """A technician who keeps and sends one sign after the other until told to stop."""

    def __init__(self, phone: Phone, replica: Replica, call: str) -> None:
        self.phone, self.replica, self.call = phone, replica, call
        self.stop, self.begun = threading.Event(), threading.Event()
        self.thread = threading.Thread(target=self._type)
        self.thread.start()

    def _type(self) -> None:
        while not self.stop.is_set():
            self.replica.keep(self.phone.make("sign", {"sign": "knock", "present": True}, self.call))
            self.replica.exchange(WebLine(self.phone.http))
            self.begun.set()

    def end(self) -> None:
        self.stop.set()
        self.thread.join(60)


def epoch(server: Server) -> str:
    return httpx.get(f"{server.url}/api/v1/health", trust_env=False, timeout=60).json()["epoch"]


def test_a_backup_made_while_phones_write_is_put_back_and_the_phones_give_the_rest(
    server: Server, tmp_path: Path
) -> None:
    (okafor, mine), (lindqvist, others) = (sign_in(server, name) for name in PEOPLE)
    told = story(okafor)
    mine.keep(*told.entries)
    mine.exchange(WebLine(okafor.http))
    typing = Typing(okafor, mine, told.call)
    assert typing.begun.wait(60)
    backed_up = server.run("backup", "copy")
    typing.end()
    assert backed_up.startswith("copy: ") and backed_up.endswith(" entries, whole\n")
    in_copy = int(backed_up.split()[1])
    mine.keep(okafor.make("sign", {"sign": "growl", "present": True}, told.call))
    mine.exchange(WebLine(okafor.http))
    others.exchange(WebLine(lindqvist.http))
    before = {entry["id"]: content(entry) for entry in okafor.pull()}
    assert len(told.entries) < in_copy < len(before)

    was = epoch(server)
    with pytest.raises(AssertionError, match=rf"holds {len(before)} entries: say --replace"):
        server.run("restore", "copy")
    assert (epoch(server), len(okafor.pull())) == (was, len(before))
    restored = server.run("restore", "copy", "--replace")

    assert restored == f"copy: {in_copy} entries, whole; 0 photos there, 0 to come from the phones\n"
    assert epoch(server) != was
    assert len(okafor.pull()) == in_copy
    others.exchange(WebLine(lindqvist.http))
    mine.exchange(WebLine(okafor.http))
    assert {entry["id"]: content(entry) for entry in okafor.pull()} == before
    assert mine.store.refused == others.store.refused == {}
    assert server.run("rebuild")


def test_an_empty_place_needs_no_consent_and_a_file_that_is_no_backup_changes_nothing(
    server: Server, tmp_path: Path
) -> None:
    server.run("backup", "empty")
    okafor, mine = sign_in(server, "T. Okafor")
    (tmp_path / "photo.jpg").write_bytes(b"\xff\xd8\xff no backup")
    with pytest.raises(AssertionError, match=r"photo\.jpg"):
        server.run("restore", "photo.jpg")
    with pytest.raises(AssertionError, match="there is no such file"):
        server.run("restore", "nowhere")
    assert okafor.get("/health")["epoch"] == epoch(server)
    assert "0 entries, whole" in server.run("restore", "empty")
