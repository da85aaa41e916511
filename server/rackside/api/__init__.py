"""The HTTP API, under /api/v1."""

from fastapi import APIRouter

from rackside.api import calls, devices, engine, entries, machines, people, photos, reports

router = APIRouter(prefix="/api/v1")
for topic in (devices, entries, photos, calls, reports, machines, engine, people):
    router.include_router(topic.router)
