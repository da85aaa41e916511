"""The HTTP API, under /api/v1."""

from fastapi import APIRouter

from rackside.api import calls, devices, engine, entries, machines, people, photos, reports
from rackside.api.errors import CODES, MEDIA_TYPE, problem

PROBLEM = {
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
            "items": {
                "type": "object",
                "required": ["pointer", "detail"],
                "properties": {"pointer": {"type": "string"}, "detail": {"type": "string"}},
            },
        },
    },
    "example": problem("not_found", "There is no call 2c0a6a9e-3f8e-4f53-8d6e-7c9a0a1be001 here."),
}
REFUSED = {"description": "Refused, by a stable code", "content": {MEDIA_TYPE: {"schema": PROBLEM}}}

router = APIRouter(prefix="/api/v1", responses={"4XX": REFUSED, "5XX": REFUSED})
for topic in (devices, entries, photos, calls, reports, machines, engine, people):
    router.include_router(topic.router)
