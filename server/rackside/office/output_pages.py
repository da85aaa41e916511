"""The three outputs of a call, for a reader at a screen and for the printer; the warranty file also as data."""

from typing import Annotated

from fastapi import Query, Request, Response
from fastapi.responses import HTMLResponse, JSONResponse

from rackside.office.pages import SignedIn, Store, routes
from rackside.reports import export, export_table, outputs
from rackside.reports.outputs import Kind
from rackside.reports.sheet import Shop, full_sheet

router = routes()
Asked = Annotated[Kind, Query(description="Which output")]


def _shop(request: Request) -> Shop:
    settings = request.app.state.settings
    return Shop(settings.photos, settings.currency)


@router.get("/calls/{call_id}/report")
def report(request: Request, database: Store, caller: SignedIn, call_id: str, kind: Asked = "customer") -> Response:
    links = f"/office/calls/{call_id}"
    return HTMLResponse(outputs.page_of(database, call_id, kind, _shop(request), caller.sites, links))


@router.get("/calls/{call_id}/report.pdf")
def report_pdf(request: Request, database: Store, caller: SignedIn, call_id: str, kind: Asked = "customer") -> Response:
    content = outputs.pdf_of(database, call_id, kind, _shop(request), caller.sites)
    return Response(content, media_type="application/pdf", headers=outputs.named(call_id, kind, "pdf"))


@router.get("/calls/{call_id}/report.csv")
def report_csv(request: Request, database: Store, caller: SignedIn, call_id: str) -> Response:
    text = export_table.table(full_sheet(database, call_id, _shop(request), caller.sites))
    return Response(text, media_type="text/csv; charset=utf-8", headers=outputs.named(call_id, "warranty", "csv"))


@router.get("/calls/{call_id}/report.json")
def report_json(request: Request, database: Store, caller: SignedIn, call_id: str) -> Response:
    told = export.document(full_sheet(database, call_id, _shop(request), caller.sites))
    return JSONResponse(told, headers=outputs.named(call_id, "warranty", "json"))
