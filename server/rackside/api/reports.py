"""The customer's report of a call, as a page and as PDF."""

from fastapi import APIRouter, Response
from fastapi.responses import HTMLResponse

from rackside.api.context import Base, Reader
from rackside.api.refusals import refuses
from rackside.reports import sheet
from rackside.reports.pdf import pdf_of

router = APIRouter(prefix="/calls", tags=["calls"])
PDF = {200: {"content": {"application/pdf": {"schema": {"type": "string", "format": "binary"}}}}}


@router.get(
    "/{call_id}/report.html",
    summary="The customer's report",
    description="One page, whole without a script.",
    response_class=HTMLResponse,
    responses=refuses("not_found", "engine_failed"),
)
def report_of_call(call_id: str, caller: Reader, database: Base) -> Response:
    return HTMLResponse(sheet.customer_html(database, call_id, caller.sites))


@router.get(
    "/{call_id}/report.pdf",
    summary="The customer's report as PDF",
    description="503 `report_engine_missing` where the server lacks the PDF libraries; the HTML has the same content.",
    response_class=Response,
    responses=PDF | refuses("not_found", "engine_failed", "report_engine_missing"),
)
def report_pdf_of_call(call_id: str, caller: Reader, database: Base) -> Response:
    named = {"Content-Disposition": f'inline; filename="report-{call_id[:8]}.pdf"'}
    html = sheet.customer_html(database, call_id, caller.sites)
    return Response(pdf_of(html), media_type="application/pdf", headers=named)
