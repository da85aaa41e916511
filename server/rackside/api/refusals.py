"""How each operation refuses: its own codes, and those that every operation of its kind has."""

from collections import defaultdict
from typing import Any

from rackside.api.errors import CODES, MEDIA_TYPE, problem

Responses = dict[int | str, dict[str, Any]]
SIGNED_IN = ("no_credentials", "token_revoked", "token_expired", "not_allowed")
ALWAYS = ("server_failed", "busy")
SENT = ("body_too_large", "media_type", "not_json")
UNSAID = "Successful Response"
DONE = {"200": "It is answered", "201": "It is made", "204": "It is done; there is nothing to answer"}
PROBLEM: dict[str, Any] = {
    "type": "object",
    "required": ["type", "title", "status", "code", "detail", "remedy"],
    "properties": {
        "type": {"type": "string"},
        "title": {"type": "string"},
        "status": {"type": "integer"},
        "code": {"type": "string", "enum": sorted(CODES)},
        "detail": {"type": "string", "description": "What was wrong this time"},
        "remedy": {"type": "string", "description": "What to do about it"},
        "errors": {
            "type": "array",
            "description": "Each fault with its JSON pointer",
            "items": {
                "type": "object",
                "required": ["pointer", "detail"],
                "properties": {"pointer": {"type": "string"}, "detail": {"type": "string"}},
            },
        },
    },
}


def refuses(*codes: str) -> Responses:
    """Return the responses with which an operation refuses."""
    by_status: defaultdict[int, list[str]] = defaultdict(list)
    for code in codes:
        by_status[CODES[code].status].append(code)
    return {status: _response(status, same) for status, same in by_status.items()}


def _response(status: int, codes: list[str]) -> dict[str, Any]:
    about = {"allOf": [{"$ref": "#/components/schemas/Problem"}, {"properties": {"code": {"enum": codes}}}]}
    examples = {code: {"value": problem(code, CODES[code].remedy)} for code in codes}
    response: dict[str, Any] = {
        "description": ", ".join(f"`{code}`" for code in codes),
        "content": {MEDIA_TYPE: {"schema": about, "examples": examples}},
    }
    if status in (429, 503):
        response["headers"] = {"Retry-After": {"description": "Seconds to wait", "schema": {"type": "integer"}}}
    return response


def codes_of(operation: dict[str, Any]) -> list[str]:
    """Return the codes an operation was given by `refuses`."""
    found = []
    for response in operation["responses"].values():
        found += list(response.get("content", {}).get(MEDIA_TYPE, {}).get("examples", {}))
    return found


def complete(operation: dict[str, Any]) -> None:
    """Give an operation the refusals that all of its kind have, and say what its success is."""
    for status, response in operation["responses"].items():
        if response["description"] == UNSAID:
            response["description"] = DONE[str(status)]
    codes = codes_of(operation) + list(ALWAYS)
    codes += SIGNED_IN if operation.get("security") else ()
    codes.append("invalid_query")
    if "requestBody" in operation:
        json_only = "application/json" in operation["requestBody"]["content"]
        codes += SENT if json_only else SENT[:1]
    for status in ("422", "HTTPValidationError"):
        operation["responses"].pop(status, None)
    told = {str(status): response for status, response in refuses(*dict.fromkeys(codes)).items()}
    operation["responses"].update(dict(sorted(told.items())))
