"""The request bodies that routes read themselves, described for the OpenAPI document."""

from typing import Any

EXAMPLE_ENTRY = {
    "id": "6f3d1c1e-7b0e-4a51-9a52-0f5d4d1f7c11",
    "schema": 1,
    "kind": "sign",
    "call": "2c0a6a9e-3f8e-4f53-8d6e-7c9a0a1be001",
    "base": [],
    "made_at": "2026-10-14T21:38:00-05:00",
    "device": "b1c7f8f2-1d34-4a6a-9f0e-5b7c1a2d3e4f",
    "author": "T. Okafor",
    "body": {"sign": "breaker_tripped", "present": True},
}
ENTRY = {
    "type": "object",
    "required": ["id", "schema", "kind", "call", "base", "made_at", "device", "author", "body"],
    "properties": {
        "id": {"type": "string", "format": "uuid"},
        "schema": {"type": "integer"},
        "kind": {"type": "string"},
        "call": {"type": ["string", "null"], "format": "uuid"},
        "base": {"type": "array", "items": {"type": "string", "format": "uuid"}},
        "made_at": {"type": "string", "format": "date-time"},
        "device": {"type": "string"},
        "author": {"type": "string"},
        "body": {"type": "object"},
    },
}
CASE = {
    "type": "object",
    "required": ["machine", "rounds"],
    "properties": {"machine": {"type": "object"}, "rounds": {"type": "array", "items": {"type": "object"}}},
}
EXAMPLE_CASE = {
    "machine": {"tag": "A3", "rated_voltage": 460},
    "rounds": [
        {
            "label": "as_found",
            "readings": [
                {
                    "point": "line_voltage",
                    "legs": {"L1-L2": "478", "L2-L3": "480", "L3-L1": "479"},
                    "unit": "V",
                    "state": "running",
                }
            ],
        }
    ],
}
BODIES: dict[str, tuple[dict[str, Any], Any]] = {
    "Push": (
        {
            "type": "object",
            "required": ["device", "entries"],
            "properties": {
                "device": {"type": "string"},
                "epoch": {"type": ["string", "null"]},
                "entries": {"type": "array", "maxItems": 500, "items": ENTRY},
            },
        },
        {"device": EXAMPLE_ENTRY["device"], "epoch": None, "entries": [EXAMPLE_ENTRY]},
    ),
    "Case": (CASE, EXAMPLE_CASE),
}


def described(name: str) -> dict[str, Any]:
    """Return the OpenAPI description of a body."""
    schema, example = BODIES[name]
    content = {"application/json": {"schema": schema, "example": example}}
    return {"requestBody": {"required": True, "content": content}}
