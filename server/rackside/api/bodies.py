"""The request bodies that routes read themselves, described with an example for the OpenAPI document."""

from typing import Any

EXAMPLE_ENTRY = {
    "id": "6f3d1c1e-7b0e-4a51-9a52-0f5d4d1f7c11",
    "schema": 1,
    "kind": "site",
    "call": None,
    "base": [],
    "made_at": "2026-10-14T21:38:00-05:00",
    "device": "b1c7f8f2-1d34-4a6a-9f0e-5b7c1a2d3e4f",
    "author": "T. Okafor",
    "body": {"name": "Mill Race Depot", "time_zone": "America/Chicago"},
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
PUSH = {
    "type": "object",
    "required": ["device", "entries"],
    "additionalProperties": False,
    "properties": {
        "device": {"type": "string", "description": "Id or name of the device the token belongs to"},
        "epoch": {"type": ["string", "null"], "description": "The epoch of the last answer, if any"},
        "entries": {"type": "array", "maxItems": 500, "items": {"$ref": "#/components/schemas/Entry"}},
    },
}
BODIES: dict[str, tuple[dict[str, Any], Any]] = {
    "Push": (PUSH, {"device": EXAMPLE_ENTRY["device"], "epoch": None, "entries": [EXAMPLE_ENTRY]}),
    "Case": ({"$ref": "#/components/schemas/Case"}, EXAMPLE_CASE),
}


def described(name: str) -> dict[str, Any]:
    """Return the OpenAPI description of a body."""
    schema, example = BODIES[name]
    content = {"application/json": {"schema": schema, "example": example}}
    return {"requestBody": {"required": True, "content": content}}
