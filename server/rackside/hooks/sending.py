"""Send one message: to a checked address, within a bounded time, following nothing."""

import ssl
import time
from collections.abc import Iterable
from datetime import datetime
from typing import Any, NamedTuple

import httpcore
from standardwebhooks import Webhook

from rackside.hooks.addresses import Forbidden, resolved

SECONDS = 15.0
STEP_SECONDS = 5.0
AGENT = "rackside-webhooks"


class Bounded(httpcore.NetworkStream):
    """A connection that ends at a deadline, however slowly the other side talks."""

    def __init__(self, inner: httpcore.NetworkStream, deadline: float) -> None:
        self._inner, self._deadline = inner, deadline

    def _left(self, timeout: float | None) -> float:
        left = self._deadline - time.monotonic()
        if left <= 0:
            raise httpcore.ReadTimeout("no whole answer in time")
        return left if timeout is None else min(left, timeout)

    def read(self, max_bytes: int, timeout: float | None = None) -> bytes:
        return self._inner.read(max_bytes, self._left(timeout))

    def write(self, buffer: bytes, timeout: float | None = None) -> None:
        self._inner.write(buffer, self._left(timeout))

    def close(self) -> None:
        self._inner.close()

    def start_tls(
        self, ssl_context: ssl.SSLContext, server_hostname: str | None = None, timeout: float | None = None
    ) -> httpcore.NetworkStream:
        return Bounded(self._inner.start_tls(ssl_context, server_hostname, self._left(timeout)), self._deadline)

    def get_extra_info(self, info: str) -> Any:
        return self._inner.get_extra_info(info)


class Network(httpcore.NetworkBackend):
    """Resolves a name once, checks what it found, and connects to that."""

    def __init__(self, private: bool, seconds: float) -> None:
        self._private, self._seconds = private, seconds
        self._plain = httpcore.SyncBackend()

    def connect_tcp(
        self,
        host: str,
        port: int,
        timeout: float | None = None,
        local_address: str | None = None,
        socket_options: Iterable[Any] | None = None,
    ) -> httpcore.NetworkStream:
        deadline = time.monotonic() + self._seconds
        try:
            address = resolved(host, port, self._private)
        except OSError as error:
            raise httpcore.ConnectError(f"{host} is not found: {error.strerror or error}") from error
        return Bounded(self._plain.connect_tcp(address, port, timeout, local_address, socket_options), deadline)


class Sent(NamedTuple):
    """How a message was received: the status, or why there was none."""

    status: int | None
    error: str | None
    retry_after: int = 0

    @property
    def delivered(self) -> bool:
        return self.status is not None and 200 <= self.status < 300


class Sender:
    """Sends messages, each by a connection of its own."""

    def __init__(self, private: bool, seconds: float = SECONDS) -> None:
        self._pool = httpcore.ConnectionPool(
            network_backend=Network(private, seconds), max_connections=None, max_keepalive_connections=0
        )

    def send(self, url: str, secrets: Iterable[str], message_id: str, payload: str, at: datetime) -> Sent:
        """Sign by every secret and post one message.

        The answer's body is not read; a redirect is an answer like any other.
        """
        headers = {
            "content-type": "application/json",
            "user-agent": AGENT,
            "webhook-id": message_id,
            "webhook-timestamp": str(int(at.timestamp())),
            "webhook-signature": " ".join(Webhook(secret).sign(message_id, at, payload) for secret in secrets),
        }
        waits = {"timeout": dict.fromkeys(("connect", "read", "write", "pool"), STEP_SECONDS)}
        try:
            with self._pool.stream("POST", url, headers=headers, content=payload.encode(), extensions=waits) as answer:
                return Sent(answer.status, None, _retry_after(dict(answer.headers)))
        except Forbidden as forbidden:
            return Sent(None, f"refused: {forbidden}")
        except (httpcore.TimeoutException, httpcore.NetworkError, httpcore.ProtocolError) as error:
            return Sent(None, f"{type(error).__name__}: {error}"[:200])

    def close(self) -> None:
        self._pool.close()


def _retry_after(headers: dict[bytes, bytes]) -> int:
    told = {name.lower(): value for name, value in headers.items()}.get(b"retry-after", b"0")
    return int(told) if told.isdigit() and len(told) < 7 else 0
