"""The office's pages: rendered here, whole without a script."""

from fastapi import APIRouter

from rackside.office import (
    call_pages,
    call_writing,
    import_pages,
    label_pages,
    list_pages,
    machine_pages,
    output_pages,
    people_pages,
    refrigerant_pages,
    register_pages,
    search_pages,
    sign_in,
    site_pages,
    trend_pages,
    webhook_pages,
)
from rackside.office.pages import OfficeRoute

router = APIRouter(prefix="/office", route_class=OfficeRoute, include_in_schema=False)
TOPICS = (
    sign_in,
    list_pages,
    call_pages,
    call_writing,
    output_pages,
    import_pages,
    machine_pages,
    trend_pages,
    label_pages,
    site_pages,
    refrigerant_pages,
    register_pages,
    search_pages,
    people_pages,
    webhook_pages,
)
router.add_api_route("", list_pages.today)
for topic in TOPICS:
    router.include_router(topic.router)
