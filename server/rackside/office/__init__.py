"""The office's pages: rendered here, whole without a script."""

from fastapi import APIRouter

from rackside.office import call_pages, list_pages, people_pages, sign_in
from rackside.office.pages import OfficeRoute

router = APIRouter(prefix="/office", route_class=OfficeRoute, include_in_schema=False)
router.add_api_route("", list_pages.today)
for topic in (sign_in, list_pages, call_pages, people_pages):
    router.include_router(topic.router)
