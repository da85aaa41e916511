"""The PDF engine: imported only when a PDF is asked for, because its system libraries may be absent."""

import threading
from functools import cache
from typing import Any, NamedTuple

import weasyprint  # type: ignore[import-untyped]
from weasyprint.text.fonts import FontConfiguration  # type: ignore[import-untyped]
from weasyprint.urls import URLFetcher, URLFetcherResponse  # type: ignore[import-untyped]

from rackside.reports.pages import STATIC
from rackside.reports.pictures import shrunk

# Where a page's own addresses begin; nothing is ever fetched from there.
HERE = "report://call"
STYLE_SHEET = "/report.css"
# The engine's caches are not made for two layouts at a time.
ONE_AT_A_TIME = threading.Lock()


class Made(NamedTuple):
    content: bytes
    pages: int


class OwnPhotos(URLFetcher):  # type: ignore[misc]
    """Answers the engine with the call's own photos, shrunk; it gets nothing else from anywhere."""

    def __init__(self, pictures: dict[str, str]) -> None:
        super().__init__()
        self.pictures = pictures

    def fetch(self, url: str, headers: Any = None) -> Any:
        if url.endswith(STYLE_SHEET):
            return URLFetcherResponse(url, b"", {"Content-Type": "text/css"})
        path = self.pictures.get(url.removeprefix(HERE))
        if path is None:
            raise ValueError(f"a report does not fetch {url}")
        return URLFetcherResponse(url, shrunk(path), {"Content-Type": "image/jpeg"})


def printed(html: str, pictures: dict[str, str]) -> Made:
    """Return a page as PDF; `pictures` gives the file of each photo's address."""
    with ONE_AT_A_TIME:
        sheet, fonts = _style()
        page = weasyprint.HTML(string=html, base_url=HERE, url_fetcher=OwnPhotos(pictures))
        laid_out = page.render(stylesheets=[sheet], font_config=fonts)
        return Made(laid_out.write_pdf(), len(laid_out.pages))


@cache
def _style() -> tuple[Any, Any]:
    """Return the style sheet, parsed, and the fonts."""
    fonts = FontConfiguration()
    return weasyprint.CSS(filename=str(STATIC / "report.css"), font_config=fonts), fonts
