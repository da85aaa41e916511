"""The three outputs of one record: each as a page, and as PDF from the same page."""

from collections.abc import Callable, Collection
from typing import Any, Literal, NamedTuple

from rackside.records import Database
from rackside.reports import pdf
from rackside.reports.customer import customer_values
from rackside.reports.next_visit import MOST, next_values
from rackside.reports.pages import environment
from rackside.reports.sheet import Shop, full_sheet
from rackside.reports.warranty import warranty_values

Json = dict[str, Any]
Kind = Literal["customer", "warranty", "next"]
PAGES = environment()
SHORTER = (MOST, 10, 7, 5, 3, 2)


class Output(NamedTuple):
    """One output: its name on links, its template, and what it shows of a sheet."""

    title: str
    template: str
    values: Callable[[Json], Json]


OUTPUTS: dict[Kind, Output] = {
    "customer": Output("Customer report", "customer.html", customer_values),
    "warranty": Output("Office and warranty file", "warranty.html", warranty_values),
    "next": Output("Next technician", "next.html", next_values),
}


def page(sheet: Json, kind: Kind, links: str = "") -> str:
    """Return an output as HTML; `links` is the address under which the others stand, for a reader at a screen."""
    return _rendered(sheet, kind, OUTPUTS[kind].values(sheet), links)


def print_of(sheet: Json, kind: Kind) -> bytes:
    """Return an output as PDF; the next technician's page is cut until it is one page."""
    pictures = {photo["href"]: photo["path"] for photo in _pictures(sheet) if photo["href"]}
    if kind != "next":
        return pdf.pdf_of(page(sheet, kind), pictures).content
    for most in SHORTER:
        made = pdf.pdf_of(_rendered(sheet, kind, next_values(sheet, most), ""), pictures)
        if made.pages == 1:
            break
    return made.content


def page_of(
    database: Database, call_id: str, kind: Kind, shop: Shop, sites: Collection[str] | None = None, links: str = ""
) -> str:
    """Return an output of a call as HTML; refuses not_found when it may not be seen."""
    return page(full_sheet(database, call_id, shop, sites), kind, links)


def pdf_of(database: Database, call_id: str, kind: Kind, shop: Shop, sites: Collection[str] | None = None) -> bytes:
    """Return an output of a call as PDF; refuses not_found, and report_engine_missing without the PDF libraries."""
    return print_of(full_sheet(database, call_id, shop, sites), kind)


def named(call_id: str, kind: Kind, ending: str) -> dict[str, str]:
    """Return the header that names a file; data is to be kept, a PDF to be read."""
    how = "inline" if ending == "pdf" else "attachment"
    return {"Content-Disposition": f'{how}; filename="{kind}-{call_id[:8]}.{ending}"'}


def _rendered(sheet: Json, kind: Kind, values: Json, links: str) -> str:
    known = {"kind": kind, "title": OUTPUTS[kind].title, "outputs": OUTPUTS, "links": links}
    return PAGES.get_template(OUTPUTS[kind].template).render(**sheet, **values, **known)


def _pictures(sheet: Json) -> list[Json]:
    signed = [signature["picture"] for signature in sheet["signatures"] if signature["picture"]]
    return [*sheet["photos"], *signed]
