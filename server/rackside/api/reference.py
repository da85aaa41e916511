"""The OpenAPI document as one page to read: no script, nothing from elsewhere."""

import html
import json
import re
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
SCHEMA = re.compile(r"#/components/schemas/(\w+)")
KINDS = {"string": "text", "integer": "a whole number", "boolean": "true or false", "number": "a number"}
METHODS = ("get", "post", "put", "delete")


@cache
def _page() -> Any:
    pages = environment(HERE)
    pages.filters["pretty"] = _pretty
    pages.filters["linked"] = _linked
    pages.filters["may_be"] = _may_be
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


def _linked(value: Any) -> str:
    """Return a schema as HTML in which every other schema it names can be followed."""
    return SCHEMA.sub(r'<a href="#schema-\1">#/components/schemas/\1</a>', html.escape(_pretty(value)))


def _may_be(schema: dict[str, Any]) -> str:
    """Return in words what a parameter may be."""
    parts = [one for one in schema.get("anyOf", [schema]) if one.get("type") != "null"]
    told = " or ".join(map(_one_kind, parts))
    return told + (f"; {json.dumps(schema['default'])} when not given" if schema.get("default") is not None else "")


def _one_kind(schema: dict[str, Any]) -> str:
    if schema.get("type") == "array":
        return f"{_one_kind(schema['items'])}; again for more"
    if "enum" in schema:
        return ", ".join(map(str, schema["enum"]))
    least, most = schema.get("minimum"), schema.get("maximum")
    return KINDS[schema["type"]] + (f", {least} to {most}" if least is not None and most is not None else "")


def _by_tag(told: dict[str, Any]) -> list[tuple[dict[str, str], list[dict[str, Any]]]]:
    """Return each tag with its operations, in the document's order."""
    found = [
        {"method": method.upper(), "path": path, **operation}
        for path, methods in told["paths"].items()
        for method, operation in methods.items()
        if method in METHODS
    ]
    return [(tag, [one for one in found if tag["name"] in one["tags"]]) for tag in told["tags"]]
