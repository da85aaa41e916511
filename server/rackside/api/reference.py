"""The OpenAPI document as one page to read: no script, nothing from elsewhere."""

import json
from functools import cache
from pathlib import Path
from typing import Any

from fastapi import APIRouter, Request, Response
from fastapi.responses import FileResponse, HTMLResponse

from rackside.api.document import document
from rackside.api.errors import CODES
from rackside.api.examples import request_line
from rackside.reports.pages import environment

HERE = Path(__file__).parent / "templates"
router = APIRouter(include_in_schema=False)
METHODS = ("get", "post", "put", "delete")


@cache
def _page() -> Any:
    pages = environment(HERE)
    pages.filters["pretty"] = _pretty
    pages.globals["request_line"] = request_line
    return pages.get_template("reference.html")


@router.get("/reference")
def reference(request: Request) -> Response:
    told = document(request.app)
    return HTMLResponse(_page().render(told=told, groups=_by_tag(told), codes=CODES))


@router.get("/reference.css")
def reference_style() -> Response:
    return FileResponse(HERE / "reference.css", media_type="text/css; charset=utf-8")


def _pretty(value: Any) -> str:
    return value if isinstance(value, str) else json.dumps(value, indent=2, ensure_ascii=False)


def _by_tag(told: dict[str, Any]) -> list[tuple[dict[str, str], list[dict[str, Any]]]]:
    """Return each tag with its operations, in the document's order."""
    found = [
        {"method": method.upper(), "path": path, **operation}
        for path, methods in told["paths"].items()
        for method, operation in methods.items()
        if method in METHODS
    ]
    return [(tag, [one for one in found if tag["name"] in one["tags"]]) for tag in told["tags"]]
