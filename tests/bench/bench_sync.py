"""Push and pull of 1,000 and 10,000 entries beside a bare server in the same run: ratios, bytes, and their budgets."""

import json
import statistics
import subprocess
import sys
import time
import uuid
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

import httpx
import pytest

from tests.fixtures.servers import Server, free_port
from tests.server.house import PASSWORD, Phone, line_voltage, story
from tests.server.test_kill import signed_in

BATCH, PAGE, RUNS = 500, 1000, 3
PUSH_BUDGET, PULL_BUDGET = 3.0, 5.0


@pytest.fixture
def bare(tmp_path: Path) -> Iterator[Callable[[], httpx.Client]]:
    """Start bare servers, each on a file of its own."""
    processes: list[subprocess.Popen[bytes]] = []

    def start() -> httpx.Client:
        port, file = free_port(), tmp_path / f"bare-{len(processes)}.db"
        program = Path(__file__).with_name("bare_server.py")
        processes.append(subprocess.Popen([sys.executable, program, file, str(port)]))
        http = httpx.Client(base_url=f"http://127.0.0.1:{port}", trust_env=False, timeout=60)
        for _ in range(200):
            try:
                http.get("/entries", params={"after": 0})
                return http
            except httpx.TransportError:
                time.sleep(0.05)
        raise AssertionError("the bare server did not start")

    yield start
    for process in processes:
        process.kill()
        process.wait()


class Send(NamedTuple):
    """Bodies for one server."""

    http: httpx.Client
    path: str
    bodies: list[bytes]


def batches(entries: list[dict[str, Any]], **head: Any) -> list[bytes]:
    parts = [entries[start : start + BATCH] for start in range(0, len(entries), BATCH)]
    return [json.dumps({**head, "entries": part}).encode() for part in parts]


def push_in_turn(sends: list[Send], status: str) -> list[float]:
    """Seconds each server takes for its bodies, one of each in turn: whatever slows the machine slows both."""
    seconds = [0.0 for _ in sends]
    for bodies in zip(*(send.bodies for send in sends), strict=True):
        for place, (send, body) in enumerate(zip(sends, bodies, strict=True)):
            start = time.perf_counter()
            answer = send.http.post(send.path, content=body, headers={"Content-Type": "application/json"}).content
            seconds[place] += time.perf_counter() - start
            assert answer.count(f'"status": "{status}"'.encode()) == body.count(b'"schema"')
    return seconds


def timed_pull(http: httpx.Client, path: str, after: int, count: int) -> float:
    """Seconds to pull everything after a cursor; the pages are unpacked but not parsed until the clock has stopped."""
    pages, start = [], time.perf_counter()
    while True:
        pages.append(http.get(path, params={"after": after, "limit": PAGE}).content)
        told = json.loads(b"{" + pages[-1][pages[-1].rindex(b'"cursor"') :])
        after, more = told["cursor"], told.get("more", len(pages) < count // PAGE)
        if not more:
            break
    seconds = time.perf_counter() - start
    assert sum(len(json.loads(page)["items"]) for page in pages) == count
    return seconds


def readings(phone: Phone, call: str, round_id: str, count: int) -> list[dict[str, Any]]:
    """Entries of about 400 bytes."""
    return [phone.make("reading", line_voltage(round_id), call, id=str(uuid.uuid4())) for _ in range(count)]


class Carried:
    """What crossed the line: requests, bytes of bodies up, bytes of bodies down as they came, packed."""

    def __init__(self, http: httpx.Client) -> None:
        self.answers: list[httpx.Response] = []
        http.event_hooks = {"response": [self._count]}

    def _count(self, answer: httpx.Response) -> None:
        self.answers.append(answer)

    def since(self) -> str:
        answers, self.answers = self.answers, []
        up, down = sum(len(one.request.content) for one in answers), sum(one.num_bytes_downloaded for one in answers)
        return f"{len(answers)} requests, {up / 1000:.1f} kB up, {down / 1000:.1f} kB down"


def measure_bytes(phone: Phone, bodies: list[bytes], cursor: int, count: int) -> dict[str, str]:
    """The same batch sent once more, an empty phone's pull, and a pull when there is nothing new."""
    carried, told = Carried(phone.http), {}
    push_in_turn([Send(phone.http, "/api/v1/entries", bodies)], "repeated")
    told["sent again"] = carried.since()
    timed_pull(phone.http, "/api/v1/entries", cursor, count)
    told["pull"] = carried.since()
    page = phone.get("/entries", after=cursor + count)
    assert (page["items"], page["cursor"]) == ([], cursor + count), "what was sent again moved nothing"
    told["nothing new"] = carried.since()
    phone.http.event_hooks = {}
    return told


def one_run(server: Server, http: httpx.Client, count: int) -> dict[str, Any]:
    phone = signed_in(server)
    told = story(phone)
    cursor = phone.keep(*told.entries)["cursor"]
    entries = readings(phone, told.call, told.round, count)
    ours, theirs = batches(entries, device=phone.device, epoch=None), batches(entries)
    api = "/api/v1/entries"
    sends = [Send(http, "/entries", theirs), Send(phone.http, api, ours)]
    bare_push, push = push_in_turn(sends, "accepted")
    bare_repeat, repeat = push_in_turn(sends, "repeated")
    return {
        "bare push": bare_push,
        "push": push,
        "bare repeat": bare_repeat,
        "repeat": repeat,
        "bare pull": timed_pull(http, "/entries", 0, count),
        "pull": timed_pull(phone.http, api, cursor, count),
        "bytes": measure_bytes(phone, ours, cursor, count),
    }


@pytest.mark.parametrize("count", [1_000, 10_000])
def test_push_and_pull_beside_a_bare_server(
    serve: Callable[..., Server], new_database: Callable[[], str], bare: Callable[[], httpx.Client], count: int
) -> None:
    runs = []
    for _ in range(RUNS):
        url = new_database()
        server = serve(url, RACKSIDE_PASSWORD=PASSWORD)
        server.run("user", "add", "T. Okafor", "--database", url)
        runs.append(one_run(server, bare(), count))
        server.kill()
    carried = [run.pop("bytes") for run in runs][-1]
    median = {name: statistics.median(run[name] for run in runs) for name in runs[0]}
    push, pull = median["push"] / median["bare push"], median["pull"] / median["bare pull"]
    print(f"\n{url.split(':')[0]}, {count} entries, {count // BATCH} requests, median of {RUNS}:")
    print("  " + ", ".join(f"{name} {seconds:.3f} s" for name, seconds in median.items()))
    print(f"  push {push:.2f} x bare (budget {PUSH_BUDGET}), pull {pull:.2f} x bare (budget {PULL_BUDGET})")
    print("".join(f"  {name}: {told}\n" for name, told in carried.items()), end="")
    if url.startswith("sqlite") and count >= 10_000:
        assert push <= PUSH_BUDGET
        assert pull <= PULL_BUDGET
