"""The OpenAPI document: what FastAPI knows of the routes, with the forms and refusals it can't know."""

from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi

from rackside.api.entry_forms import case_schemas, entry_schemas
from rackside.api.events import described_events
from rackside.api.examples import illustrate
from rackside.api.refusals import PROBLEM, complete

TAGS = {
    "devices": "A phone signs in, asks who it is, and signs out.",
    "entries": "Push and pull of the log: how phones and other software write.",
    "photos": "Pictures by their content.",
    "calls": "Calls, their judgements, reviews and reports.",
    "results": "Results of many calls at once.",
    "machines": "The register: sites, machines, meters, and a machine's numbers over time.",
    "engine": "The judge for everybody, its words, and the state of the server.",
    "import": "Sites, machines and people from a table, with a trial run.",
    "people": "People, devices and keys, for an admin.",
    "webhooks": "Being told of events, by the Standard Webhooks specification.",
}
IN_PATH = {
    "call_id": "Of a call: GET /calls lists them; it is the id of the entry that opened it",
    "machine_id": "Of a machine: GET /machines lists them",
    "device_id": "Of a phone or key: `device` of GET /me is one's own, GET /devices lists all",
    "key_id": "Of a key: `id` where it was made; GET /devices lists them",
    "person_id": "Of a person: GET /people lists them",
    "webhook_id": "Of a webhook: GET /webhooks lists them",
    "delivery_id": "Of a message: its `webhook-id`",
    "sha256": "The SHA-256 of the picture's bytes in hexadecimal, as its entry announced it",
    "kind": "What the rows are",
}
PLAIN = {"HTTPValidationError", "ValidationError"}


def document(app: FastAPI) -> dict[str, Any]:
    """Return the whole document, made once."""
    if app.openapi_schema is None:
        made = get_openapi(
            title=app.title,
            version=app.version,
            description=app.description,
            routes=app.routes,
            tags=[{"name": name, "description": told} for name, told in TAGS.items()],
        )
        schemas = made.setdefault("components", {}).setdefault("schemas", {})
        for name in PLAIN & set(schemas):
            del schemas[name]
        schemas |= {"Problem": PROBLEM} | case_schemas() | entry_schemas()
        for methods in made["paths"].values():
            for operation in methods.values():
                complete(operation)
                _name_what_is_in_the_path(operation)
        illustrate(made["paths"], "/api/v1")
        made["webhooks"] = described_events()
        app.openapi_schema = made
    return app.openapi_schema


def _name_what_is_in_the_path(operation: dict[str, Any]) -> None:
    for parameter in operation.get("parameters", ()):
        if parameter["in"] == "path":
            parameter.setdefault("description", IN_PATH[parameter["name"]])
