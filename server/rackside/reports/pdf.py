"""An output's HTML as PDF, where the PDF engine and its system libraries are installed."""

import importlib
from typing import TYPE_CHECKING

from rackside.records.refused import Refused

if TYPE_CHECKING:
    from rackside.reports.press import Made


def pdf_of(html: str, pictures: dict[str, str] | None = None) -> "Made":
    """Return the PDF of an output; refuses with `report_engine_missing` where the engine can't be loaded."""
    try:
        press = importlib.import_module("rackside.reports.press")
    except (ImportError, OSError) as error:
        raise Refused(
            "report_engine_missing",
            f"PDF needs WeasyPrint and its system libraries (pango); loading it said: {error}. "
            "The HTML report has the same content.",
        ) from None
    made: Made = press.printed(html, pictures or {})
    return made
