"""A line that breaks on purpose: a small HTTP proxy before the server, one port for each client, faults from a seed."""

import asyncio
import threading
from collections import Counter
from collections.abc import Awaitable, Callable
from random import Random

HTTP_ANSWERS = {
    "error before": b"HTTP/1.1 503 Service Unavailable\r\nContent-Length: 0\r\nConnection: close\r\n\r\n",
    "error after": b"HTTP/1.1 500 Internal Server Error\r\nContent-Length: 2\r\nConnection: close\r\n\r\n{}",
    "portal": b"HTTP/1.1 200 OK\r\nContent-Length: 22\r\nConnection: close\r\n\r\n<h1>Guest network</h1>",
}
FAULTS = ("cut before", "cut after", "twice", "late", "delay", "truncated", *HTTP_ANSWERS, "server killed")
RATE = 0.35


class Proxy:
    """Carries requests to the server. While `broken`, every third API request or so meets a fault."""

    def __init__(self, target: int, kill: Callable[[], None]) -> None:
        self.target, self._kill = target, kill
        self.broken = False
        self._seed, self._chances = 0, dict[str, Random]()
        self.carried: Counter[str] = Counter()
        self.requests, self.bytes_up, self.bytes_down = 0, 0, 0
        self._loop = asyncio.new_event_loop()
        self._thread = threading.Thread(target=self._loop.run_forever, daemon=True)
        self._thread.start()

    def door(self, name: str) -> int:
        """Open a port for one client; its faults depend on the seed, its name and the number of its request only."""

        async def serve(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
            try:
                await self._carry(reader, writer, self._chances.setdefault(name, Random(f"{self._seed} {name}")))
            except (OSError, asyncio.IncompleteReadError, ValueError):
                pass
            finally:
                writer.close()

        started = asyncio.run_coroutine_threadsafe(asyncio.start_server(serve, "127.0.0.1", 0), self._loop)
        return started.result(10).sockets[0].getsockname()[1]

    def begin(self, seed: int) -> None:
        """Whole again, with the faults of another seed to come."""
        self.broken, self._seed, self._chances = False, seed, {}
        self.carried.clear()

    def close(self) -> None:
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join(10)

    async def _carry(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter, chance: Random) -> None:
        request = await _message(reader)
        fault = self._fault(request, chance)
        self.carried[fault] += 1
        self.requests += 1
        self.bytes_up += len(request)
        answer = await self._through(request, fault, chance)
        self.bytes_down += len(answer)
        writer.write(answer)
        await writer.drain()

    def _fault(self, request: bytes, chance: Random) -> str:
        path = request.split(b" ", 2)[1]
        if not self.broken or not path.startswith((b"/api/v1/entries", b"/api/v1/photos", b"/api/v1/calls")):
            return "none"
        return chance.choice(FAULTS) if chance.random() < RATE else "none"

    async def _through(self, request: bytes, fault: str, chance: Random) -> bytes:
        if fault in ("cut before", "error before", "portal"):
            return HTTP_ANSWERS.get(fault, b"")
        if fault == "delay":
            await asyncio.sleep(chance.uniform(0.05, 0.5))
        if fault == "server killed":
            self._loop.call_later(chance.uniform(0, 0.02), self._kill)
        if fault == "twice":
            await asyncio.gather(self._ask(request), return_exceptions=True)
        answer = await self._ask(request)
        if fault == "late":
            self._loop.call_later(chance.uniform(0.1, 0.6), self._later, self._ask(request))
        return {"cut after": b"", "truncated": answer[: len(answer) * 2 // 3]}.get(
            fault, HTTP_ANSWERS.get(fault, answer)
        )

    def _later(self, asking: Awaitable[bytes]) -> None:
        task = asyncio.ensure_future(asking)
        task.add_done_callback(lambda done: done.exception())

    async def _ask(self, request: bytes) -> bytes:
        reader, writer = await asyncio.open_connection("127.0.0.1", self.target)
        try:
            writer.write(request)
            await writer.drain()
            return await reader.read(-1)
        finally:
            writer.close()


async def _message(reader: asyncio.StreamReader) -> bytes:
    """Read one request whole; its connection ends with the answer, so that each answer is read to its end."""
    head = await reader.readuntil(b"\r\n\r\n")
    lines = [line for line in head[:-4].split(b"\r\n") if not line.lower().startswith((b"connection:", b"expect:"))]
    sizes = [int(line.split(b":")[1]) for line in lines if line.lower().startswith(b"content-length:")]
    body = await reader.readexactly(sizes[0]) if sizes else b""
    return b"\r\n".join([*lines, b"Connection: close", b"", b""]) + body
