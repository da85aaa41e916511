"""What webhooks are told, described: every event with its message and an example."""

from typing import Any

from rackside.hooks.events import TRIED, WHEN
from rackside.records import outbox

TEXT = {"type": ["string", "null"]}
NAMED = {"type": "object", "required": ["id"], "properties": {"id": TEXT}}
CALL: dict[str, Any] = {
    "call": {"type": "string", "format": "uuid", "description": "GET /calls/{call} and /calls/{call}/results say more"},
    "state": {"type": "string"},
    "complaint": TEXT,
    "machine": NAMED,
    "site": NAMED,
    "watch_until": TEXT,
}
EXAMPLE = {
    "call": "2c0a6a9e-3f8e-4f53-8d6e-7c9a0a1be001",
    "state": "submitted",
    "complaint": "oil_trip",
    "machine": {"id": "5f0f4a0e-93a7-4e39-8a53-0e6a7c3b2d11", "tag": "B3", "rack": "B"},
    "site": {"id": "0c7d2b8a-5d1e-4b7b-9c3f-6e2a1f4d5b22", "name": "Tannery Lane Cold Store"},
    "watch_until": None,
}
CAUSED = {"entry": "6f3d1c1e-7b0e-4a51-9a52-0f5d4d1f7c11", "author": "T. Okafor"}


def described_events() -> dict[str, Any]:
    """Return the `webhooks` of the OpenAPI document."""
    told = {event: {"post": _event(event, kind, own)} for event, (kind, own) in outbox.EVENTS.items()}
    tried = {"webhook": "0d8f5a52-6f0b-4a0f-8f0e-3d2b9a1c7e44", "author": "M. Castellanos"}
    return told | {outbox.TEST: {"post": _message(outbox.TEST, TRIED, dict.fromkeys(tried, TEXT), tried)}}


def _event(event: str, kind: str | None, own: tuple[str, ...]) -> dict[str, Any]:
    names = ("entry", "author", *own) if kind else ()
    said = (CAUSED | dict.fromkeys(own)) if kind else {}
    return _message(event, WHEN[event], CALL | dict.fromkeys(names, TEXT), EXAMPLE | said)


def _message(event: str, when: str, members: dict[str, Any], told: dict[str, Any]) -> dict[str, Any]:
    data = {"type": "object", "required": list(members), "properties": members}
    message = {
        "type": "object",
        "required": ["type", "timestamp", "data"],
        "properties": {
            "type": {"const": event},
            "timestamp": {"type": "string", "format": "date-time"},
            "data": data,
        },
    }
    example = {"type": event, "timestamp": "2026-10-15T02:40:00.000000Z", "data": told}
    return {
        "summary": when,
        "description": "Signed in the headers webhook-id, webhook-timestamp and webhook-signature. The same webhook-id "
        "may come more than once. Answer with a status of 200 to 299 within 15 seconds; with 410 to be told no more.",
        "requestBody": {"content": {"application/json": {"schema": message, "example": example}}},
        "responses": {"2XX": {"description": "Taken"}},
    }
