"""The HTTP API, under /api/v1."""

from fastapi import APIRouter, Depends
from starlette.routing import compile_path

from rackside.api import (
    calls,
    devices,
    engine,
    entries,
    finding,
    imports,
    machines,
    many,
    people,
    photos,
    reference,
    reports,
    webhooks,
)
from rackside.api.known_query import refuse_unknown

TOPICS = (engine, devices, entries, photos, calls, reports, many, finding, machines)
TOPICS += (imports, people, webhooks, reference)
PREFIX = "/api/v1"
router = APIRouter(prefix=PREFIX, dependencies=[Depends(refuse_unknown)])
for topic in TOPICS:
    router.include_router(topic.router)
# Every address there is, as a pattern.
ADDRESSES = tuple(compile_path(PREFIX + route.path)[0] for topic in TOPICS for route in topic.router.routes)
