"""What webhooks are told, described: every event with its message and an example."""

from typing import Any

from rackside.records import outbox

WHEN = {
    outbox.SUBMITTED: "A technician sent a call in.",
    outbox.REVIEWED: "The office accepted a call or sent it back.",
    outbox.OVERRULED: "Somebody passed an unmet need of a gate, with name and reason.",
    outbox.CONDEMNED: "A decision to condemn was written; the call's state says whether the office accepted it yet.",
    outbox.WATCH_DUE: "The watch window of an accepted call has passed.",
}
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
    return {event: {"post": _event(event, kind, own)} for event, (kind, own) in outbox.EVENTS.items()}


def _event(event: str, kind: str | None, own: tuple[str, ...]) -> dict[str, Any]:
    names = ("entry", "author", *own) if kind else ()
    data = {"type": "object", "required": [*CALL, *names], "properties": CALL | dict.fromkeys(names, TEXT)}
    message = {
        "type": "object",
        "required": ["type", "timestamp", "data"],
        "properties": {
            "type": {"const": event},
            "timestamp": {"type": "string", "format": "date-time"},
            "data": data,
        },
    }
    said = (CAUSED | dict.fromkeys(own)) if kind else {}
    example = {"type": event, "timestamp": "2026-10-15T02:40:00.000000Z", "data": EXAMPLE | said}
    return {
        "summary": WHEN[event],
        "description": "Signed in the headers webhook-id, webhook-timestamp and webhook-signature. The same webhook-id "
        "may come more than once. Answer with a status of 200 to 299 within 15 seconds; with 410 to be told no more.",
        "requestBody": {"content": {"application/json": {"schema": message, "example": example}}},
        "responses": {"2XX": {"description": "Taken"}},
    }
