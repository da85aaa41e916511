"""A receiver of webhooks: somebody else's server, which may be made to fail."""

import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

from standardwebhooks import Webhook

Json = dict[str, Any]
WITHIN = 20.0


@dataclass
class Receiver:
    """What arrived, and how to answer it: `answer` gives the status of the nth message."""

    url: str = ""
    answer: Callable[[int], int] = lambda _number: 204
    headers: dict[str, str] = field(default_factory=dict)
    taken: list[tuple[bytes, dict[str, str]]] = field(default_factory=list)
    asked: int = 0

    def wait_for(self, count: int, within: float = WITHIN) -> None:
        """Wait until so many messages were taken with a status of 2xx."""
        deadline = time.monotonic() + within
        while len(self.taken) < count:
            assert time.monotonic() < deadline, f"{len(self.taken)} of {count} messages in time"
            time.sleep(0.01)

    def messages(self, secret: str) -> list[Json]:
        """Return what was taken, each verified by the specification's own library."""
        return [Webhook(secret).verify(body, headers) for body, headers in self.taken]

    def ids(self) -> list[str]:
        return [headers["webhook-id"] for _, headers in self.taken]


@contextmanager
def receiving(answer: Callable[[int], int] = lambda _number: 204) -> Iterator[Receiver]:
    told, lock = Receiver(answer=answer), threading.Lock()

    class Handler(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            body = self.rfile.read(int(self.headers["content-length"]))
            with lock:
                told.asked += 1
                status = told.answer(told.asked)
                if 200 <= status < 300:
                    told.taken.append((body, {name.lower(): value for name, value in self.headers.items()}))
            self.send_response(status)
            for name, value in told.headers.items():
                self.send_header(name, value)
            self.end_headers()

        def log_message(self, *_arguments: Any) -> None:
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    server.daemon_threads = True
    told.url = f"http://127.0.0.1:{server.server_port}/hook"
    threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()
    try:
        yield told
    finally:
        server.shutdown()
        server.server_close()
