"""The invented co-operative, loaded over HTTP into a real server: counted, loaded twice, and mostly healthy."""

from collections import Counter
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import httpx
import pytest

from seed_demo import load
from seed_demo.loading import SEED, story_of
from tests.fixtures.servers import Server

ADMIN, PASSWORD = "Demo admin", "a long enough password"
ENTRIES = {
    "reading": 1738,
    "round": 217,
    "call": 80,
    "submission": 73,
    "review": 83,
    "sign": 35,
    "machine": 11,
    "meter": 10,
    "line": 12,
    "photo": 9,
    "signature": 2,
    "event": 8,
    "action": 7,
    "decision": 5,
    "site": 2,
    "retraction": 1,
}
STATES = {"accepted": 67, "closed": 3, "open": 1, "submitted": 1, "returned": 1, "watching": 1}


class Reader:
    """Other software that reads the demo."""

    def __init__(self, server: Server) -> None:
        asked = {"name": ADMIN, "password": PASSWORD, "device": "reader"}
        self.http = httpx.Client(base_url=f"{server.url}/api/v1", trust_env=False, timeout=60)
        self.http.headers["authorization"] = f"Bearer {self.http.post('/devices', json=asked).json()['token']}"

    def get(self, path: str, **query: object) -> dict:
        answer = self.http.get(path, params=query)
        assert answer.status_code == 200, answer.text
        return answer.json()

    def entries(self) -> list[dict]:
        found, after, more = [], 0, True
        while more:
            page = self.get("/entries", after=after, limit=1000)
            found, after, more = found + page["items"], page["cursor"], page["more"]
        return found

    def calls(self) -> list[dict]:
        return self.get("/calls", limit=500)["items"]


@pytest.fixture
def server(serve: Callable[..., Server], database_url: str) -> Server:
    return with_admin(serve(database_url))


@pytest.fixture
def small_server(served: Server) -> Server:
    return with_admin(served)


def with_admin(server: Server) -> Server:
    server.run("user", "add", ADMIN, "--role", "admin", "--password", PASSWORD, "--database", server.database)
    return server


def test_loading_counts_exactly_and_again_adds_nothing(server: Server) -> None:
    assert load(server.url, ADMIN, PASSWORD) == (sum(ENTRIES.values()), 0)
    reader = Reader(server)
    first = reader.entries()
    assert Counter(entry["kind"] for entry in first) == ENTRIES
    assert Counter(call["state"] for call in reader.calls()) == STATES
    assert load(server.url, ADMIN, PASSWORD, now=datetime.now(UTC) + timedelta(days=3)) == (0, len(first))
    assert reader.entries() == first
    _routine_visits_are_healthy(reader)
    _todays_call_waits_for_the_technician(reader)


def _routine_visits_are_healthy(reader: Reader) -> None:
    """A healthy machine of any kind shows no watch and no fail."""
    routine = [call for call in reader.calls() if call["complaint"] == "routine" and call["state"] == "accepted"]
    assert len(routine) == 66
    for call in routine:
        result = reader.get(f"/calls/{call['id']}/results")["result"]
        told = [finding for round_ in result["rounds"] for finding in round_["findings"] if finding["carries"]]
        assert {finding["check"] for finding in told} >= {"insulation", "pole_drop", "net_oil_pressure"}
        bad = [finding for finding in told if finding["verdict"] in ("watch", "fail")]
        assert [(call["machine"]["tag"], finding["check"], finding["because"]) for finding in bad] == []


def _todays_call_waits_for_the_technician(reader: Reader) -> None:
    (today,) = [call for call in reader.calls() if call["state"] == "open"]
    assert today["machine"]["tag"] == "B3"
    assert today["complaint"] == "oil_trip"
    assert today["assigned_to"] == "T. Okafor"
    assert reader.get(f"/calls/{today['id']}")["rounds"] == []


def test_a_broken_off_load_is_finished_by_the_next(small_server: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    sent: list[str] = []
    ask = httpx.Client.request

    def breaking(self: httpx.Client, method: str, url: str, **content: object) -> httpx.Response:
        sent.append(url)
        if len(sent) > 40:
            raise httpx.ConnectError("the line broke")
        return ask(self, method, url, **content)

    monkeypatch.setattr(httpx.Client, "request", breaking)
    with pytest.raises(httpx.ConnectError):
        load(small_server.url, ADMIN, PASSWORD)
    monkeypatch.setattr(httpx.Client, "request", ask)
    accepted, held = load(small_server.url, ADMIN, PASSWORD)
    assert held > 0
    assert accepted + held == sum(ENTRIES.values())
    assert len(Reader(small_server).entries()) == sum(ENTRIES.values())


def test_the_story_is_told_alike_from_one_moment_and_seed() -> None:
    moment = datetime(2027, 3, 14, 8, 30, tzinfo=UTC)
    first, again, other = story_of(SEED, moment), story_of(SEED, moment), story_of("another", moment)
    assert first.in_order() == again.in_order()
    assert not {one.entry["id"] for one in first.in_order()} & {one.entry["id"] for one in other.in_order()}
    site = first.in_order()[0].entry
    assert first.told_from(site) == first.now
    assert all(one.at <= first.now for one in first.in_order())
