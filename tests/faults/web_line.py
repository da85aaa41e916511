"""A replica's line over HTTP, to a server of this process or through a proxy that breaks it."""

from typing import Any

import httpx

from tests.faults.replica import Cut

Json = dict[str, Any]


class WebLine:
    """One client. Whatever is no whole answer of the server counts as a cut."""

    def __init__(self, http: httpx.Client) -> None:
        self.http = http

    def push(self, device: str, epoch: str | None, entries: list[Json]) -> Json:
        return self._asked("POST", "/entries", json={"device": device, "epoch": epoch, "entries": entries})

    def pull(self, after: int, scope: str | None, epoch: str | None) -> Json:
        said = {"scope": scope, "epoch": epoch}
        query = {"after": after, "limit": 100} | {name: value for name, value in said.items() if value is not None}
        return self._asked("GET", "/entries", params=query)

    def call(self, call: str) -> list[Json]:
        return self._asked("GET", "/entries", params={"call": call, "limit": 1000}).get("items", [])

    def _asked(self, method: str, path: str, **request: Any) -> Json:
        try:
            answer = self.http.request(method, f"/api/v1{path}", **request)
            told = answer.json()
        except (httpx.TransportError, httpx.DecodingError, ValueError) as error:
            raise Cut from error
        if answer.status_code >= 500 or not isinstance(told, dict):
            raise Cut
        return told
