"""What the server adds to the judge: POST /analyse beside judge(), in turns in one process, by its processor time."""

import asyncio
import json
import time
from pathlib import Path
from statistics import quantiles
from typing import Any

from fastapi import FastAPI

from rackside import host
from rackside.access import devices
from rackside.app import create_app
from rackside.settings import Settings
from tests.bench.bench_judge import TIMES, full_case

BUDGET, WARM = 1.3, 10
PATH = "/api/v1/analyse"


async def answered(app: FastAPI, token: str, case: bytes) -> list[Any]:
    """Send a case through the whole application, as a server hands a request over; the answer goes back gzipped."""
    headers = {"authorization": f"Bearer {token}", "content-type": "application/json", "accept-encoding": "gzip"}
    asked = {"type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": "POST", "path": PATH}
    asked |= {"query_string": b"", "headers": [(name.encode(), value.encode()) for name, value in headers.items()]}
    said: list[Any] = []

    async def receive() -> dict[str, Any]:
        return {"type": "http.request", "body": case, "more_body": False}

    async def send(message: Any) -> None:
        said.append(message)

    await app(asked, receive, send)
    return said


async def in_turns(app: FastAPI, token: str, case: bytes) -> tuple[list[float], list[float]]:
    """Return the seconds of the judge and of the route, each time one after the other."""
    judged, routed = [], []
    async with app.router.lifespan_context(app):
        for _ in range(WARM + TIMES):
            begun = time.process_time()
            host.judge(json.loads(case))
            between = time.process_time()
            start, *_ = await answered(app, token, case)
            judged.append(between - begun)
            routed.append(time.process_time() - between)
            assert (start["status"], dict(start["headers"])[b"content-encoding"]) == (200, b"gzip")
    return judged[WARM:], routed[WARM:]


def test_analyse(sqlite_url: str, tmp_path: Path) -> None:
    app, case = create_app(Settings(database_url=sqlite_url, photos=tmp_path)), json.dumps(full_case()).encode()
    app.state.database.migrate()
    with app.state.database.writing() as connection:
        token = devices.add_key(connection, "a bench", ["analyse"], None, None)["token"]
    # The quickest tenth of each: what else runs on the machine only ever adds to it.
    judged, routed = (quantiles(seconds, n=10)[0] * 1000 for seconds in asyncio.run(in_turns(app, token, case)))
    told = f"{routed:.1f} ms against {judged:.1f} ms"
    print(f"\nPOST /analyse: {routed / judged:.2f} times judge() (budget {BUDGET}), {told}")
    assert routed <= BUDGET * judged
