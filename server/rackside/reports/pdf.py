"""A report's HTML as PDF, where the PDF engine and its system libraries are installed."""

import importlib
from typing import Any

from rackside.records.refused import Refused
from rackside.reports.pages import STATIC


def pdf_of(html: str) -> bytes:
    """Return the PDF of a report; refuses with `report_engine_missing` where WeasyPrint can't be loaded."""
    try:
        weasyprint = importlib.import_module("weasyprint")
    except (ImportError, OSError) as error:
        raise Refused(
            "report_engine_missing",
            f"PDF needs WeasyPrint and its system libraries (pango); loading it said: {error}. "
            "The HTML report has the same content.",
        ) from None
    sheet = weasyprint.CSS(filename=str(STATIC / "report.css"))
    made: bytes = weasyprint.HTML(string=html, url_fetcher=_nothing).write_pdf(stylesheets=[sheet])
    return made


def _nothing(url: str, *_more: Any, **_named: Any) -> dict[str, Any]:
    """A report fetches nothing: its style is given, its pictures are drawn in it."""
    if url.endswith("/report.css"):
        return {"string": b"", "mime_type": "text/css"}
    raise ValueError(f"a report does not fetch {url}")
