"""The request bodies that routes read themselves, described for the OpenAPI document."""

from typing import Any

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
BODIES: dict[str, dict[str, Any]] = {"Push": PUSH, "Case": {"$ref": "#/components/schemas/Case"}}


def described(name: str) -> dict[str, Any]:
    """Return the OpenAPI description of a body."""
    content = {"application/json": {"schema": BODIES[name]}}
    return {"requestBody": {"required": True, "content": content}}
