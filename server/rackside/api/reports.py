"""The three outputs of a call, each as a page and as PDF; the warranty file also as CSV and JSON."""

from typing import Annotated, Any

from fastapi import APIRouter, Query, Response
from fastapi.responses import HTMLResponse

from rackside.api.context import Base, Chosen, Reader
from rackside.api.refusals import Responses, refuses
from rackside.reports import export, export_table, outputs
from rackside.reports.outputs import Kind
from rackside.reports.sheet import Shop, full_sheet
from rackside.settings import Settings

router = APIRouter(prefix="/calls", tags=["calls"])
PDF: Responses = {200: {"content": {"application/pdf": {"schema": {"type": "string", "format": "binary"}}}}}
CSV: Responses = {200: {"content": {"text/csv": {"schema": {"type": "string"}}}}}
Asked = Annotated[Kind, Query(description="The customer's report, the warranty file, or the next technician's page")]


def _shop(settings: Settings) -> Shop:
    return Shop(settings.photos, settings.currency)


@router.get(
    "/{call_id}/report.html",
    summary="An output of a call",
    description="The customer's report unless `kind` asks for another. One page, whole without a script.",
    response_class=HTMLResponse,
    responses=refuses("not_found", "engine_failed"),
)
def report_of_call(
    call_id: str, caller: Reader, database: Base, settings: Chosen, kind: Asked = "customer"
) -> Response:
    return HTMLResponse(outputs.page_of(database, call_id, kind, _shop(settings), caller.sites))


@router.get(
    "/{call_id}/report.pdf",
    summary="An output of a call as PDF",
    description="503 `report_engine_missing` where the server lacks the PDF libraries; the HTML has the same content.",
    response_class=Response,
    responses=PDF | refuses("not_found", "engine_failed", "report_engine_missing"),
)
def report_pdf_of_call(
    call_id: str, caller: Reader, database: Base, settings: Chosen, kind: Asked = "customer"
) -> Response:
    content = outputs.pdf_of(database, call_id, kind, _shop(settings), caller.sites)
    return Response(content, media_type="application/pdf", headers=outputs.named(call_id, kind, "pdf"))


@router.get(
    "/{call_id}/report.csv",
    summary="The warranty file as CSV",
    description="A row for every reading, verdict, sign, event, action, cause, gate, line and photo; see `record`.",
    response_class=Response,
    responses=CSV | refuses("not_found", "engine_failed"),
)
def report_csv_of_call(call_id: str, caller: Reader, database: Base, settings: Chosen) -> Response:
    text = export_table.table(full_sheet(database, call_id, _shop(settings), caller.sites))
    return Response(text, media_type="text/csv; charset=utf-8", headers=outputs.named(call_id, "warranty", "csv"))


@router.get(
    "/{call_id}/report.json",
    summary="The warranty file as JSON",
    description="Case, result, decision, lines with totals, photos, signatures and corrections, under stable names.",
    responses=refuses("not_found", "engine_failed"),
)
def report_json_of_call(call_id: str, caller: Reader, database: Base, settings: Chosen) -> dict[str, Any]:
    return export.document(full_sheet(database, call_id, _shop(settings), caller.sites))
