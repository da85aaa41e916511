"""Another shop system, a program of its own, plays the whole story against the real server with real webhooks."""

import json
import queue
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest

from rackside.client import Rackside
from tests.fixtures.servers import Server
from tests.server.house import PASSWORD, line_voltage

Json = dict[str, Any]
ROOT = Path(__file__).parents[2]
WITHIN = 30


class Program:
    """The other program while it runs, heard by the lines it prints."""

    def __init__(self, url: str, key: str) -> None:
        command = [sys.executable, "-m", "tests.server.other_shop", url, key]
        pipes: Json = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "text": True}
        self.process = subprocess.Popen(command, cwd=ROOT, **pipes)
        self.lines: queue.Queue[Json] = queue.Queue()
        threading.Thread(target=self._hear, daemon=True).start()

    def _hear(self) -> None:
        for line in self.process.stdout:
            self.lines.put(json.loads(line))

    def did(self) -> Json:
        return self.lines.get(timeout=WITHIN)

    def tell(self, **told: str) -> None:
        self.process.stdin.write(json.dumps(told) + "\n")
        self.process.stdin.flush()


@pytest.fixture
def server(serve: Callable[..., Server], sqlite_url: str) -> Server:
    return serve(sqlite_url, RACKSIDE_WEBHOOKS_PRIVATE="true", RACKSIDE_PASSWORD=PASSWORD)


@pytest.fixture
def program(server: Server) -> Iterator[Program]:
    running = Program(server.url, server.run("key", "add", "other shop", "--scope", "admin").strip())
    yield running
    running.process.kill()
    running.process.wait()


def person(server: Server, name: str, role: str) -> Rackside:
    server.run("user", "add", name, "--role", role)
    return Rackside.sign_in(server.url, name, PASSWORD, f"device of {name}")


def test_another_shop_s_software_runs_a_call_from_end_to_end(server: Server, program: Program) -> None:
    listening = program.did()
    assert [program.did(), program.did()] == [{"did": "entered sites", "new": 1}, {"did": "entered machines", "new": 1}]
    program.tell(site="Tannery Lane Cold Store", tag="B3", complaint="oil_trip", reported="tripped at night")
    call = program.did()["call"]

    with person(server, "T. Okafor", "technician") as okafor, person(server, "M. Castellanos", "office") as office:
        opened = okafor.call(call)
        assert (opened["complaint"], opened["author"]) == ("oil_trip", "other shop")
        round_ = okafor.entry("round", {"label": "as_found"}, call)
        okafor.keep(round_, okafor.entry("reading", line_voltage(round_["id"]), call))
        override = {"gate": "reset", "need": "what_opened", "reason": "seen on the screen"}
        okafor.keep(okafor.entry("override", override, call))
        assert program.did() == {"did": "gate.overruled", "call": call, "state": "open", "machine": "B3"}
        okafor.keep(okafor.entry("decision", {"decision": "condemn", "cause": "grounded_winding"}, call))
        claim = program.did()
        assert (claim["did"], claim["call"]) == ("filed a claim", call)
        assert claim["leading"] == [office.results(call)["result"]["causes"][0]["cause"]]
        server.restart()
        okafor.keep(okafor.entry("submission", {"note": "done"}, call))
        assert program.did() == {"did": "call.submitted", "call": call, "state": "submitted", "machine": "B3"}
        office.review(call, "accepted", office.call(call)["changed"])
        assert program.did() == {"did": "call.reviewed", "call": call, "state": "accepted", "machine": "B3"}

    forged = httpx.post(listening["address"], json={"type": "call.submitted", "data": {}}, trust_env=False)
    assert forged.status_code == 401
    assert program.did()["did"] == "refused a message that is not signed"
