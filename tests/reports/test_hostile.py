"""Text written to break a page, a table or a file: it stands as it was written, and nothing of it runs."""

import csv
import io
import json

import pytest

from rackside.reports import export, export_table, outputs
from rackside.reports.sheet import Json
from tests.engine.case_files import f6
from tests.reports.sheets import sheet_of, told

EVIL = """</p><script>alert("1")</script><img src=x onerror=alert(1)> {{ 7*7 }} ' " & ]]> \u202e\x0b %PDF"""
FORMULA = "=HYPERLINK(1)"
WHO = "T. <b>Okafor</b>"


@pytest.fixture
def sheet() -> Json:
    case = f6()
    case["actions"] = [{"id": "a", "kind": "part_fitted", "what": EVIL, "before": EVIL, "after": FORMULA, "by": WHO}]
    case["overrides"] = [{"gate": "restart", "need": "sump_temperature", "reason": EVIL, "by": WHO, "at": None}]
    case["events"] = [{"device": "oil_control", "what": "trip", "text": EVIL, "by": WHO, "source": EVIL}]
    case["signs"] = [*case["signs"], {"sign": "valves_stated", "present": True, "note": EVIL}]
    case["rounds"][0]["readings"].append({"id": "not", "point": "pole_drop", "not_taken": EVIL, "by": WHO})
    case["decision"] = {"decision": "repair", "cause": "floodback", "reason": EVIL, "approver": FORMULA}
    made = sheet_of(case, ({"kind": "quote", "what": EVIL, "quantity": "1", "price": "10", "currency": None},))
    made["call"] |= {"reported": EVIL, "technicians": [WHO], "reviews": [], "submitted": {"by": WHO, "note": EVIL}}
    made["photos"] = [photo(EVIL)]
    made["signatures"] = [{"who": EVIL, "role": FORMULA, "by": WHO, "at": None, "picture": None, "id": "s"}]
    return made


def photo(caption: str) -> Json:
    known = {"id": "p", "sha256": "0" * 64, "media_type": "image/png", "shows": "part", "of": None, "taken_at": None}
    gone = {"href": None, "path": None, "width": None, "height": None, "missing": "not here yet: on the phone of X"}
    return {**known, **gone, "caption": caption, "by": WHO, "at": None, "subject": "part"}


@pytest.mark.parametrize("kind", outputs.OUTPUTS)
def test_a_page_shows_it_as_written_and_runs_nothing(sheet: Json, kind: outputs.Kind) -> None:
    html = outputs.page(sheet, kind)
    assert "<script" not in html
    assert "<img src=x" not in html
    assert "<b>" not in html
    assert "{{ 7*7 }}" in told(sheet, kind)
    assert " style=" not in html


@pytest.mark.parametrize("kind", outputs.OUTPUTS)
def test_it_prints(sheet: Json, kind: outputs.Kind) -> None:
    pytest.importorskip("weasyprint", exc_type=(ImportError, OSError))
    assert outputs.print_of(sheet, kind).startswith(b"%PDF-")


def test_no_cell_of_the_table_is_a_formula(sheet: Json) -> None:
    rows = list(csv.reader(io.StringIO(export_table.table(sheet))))
    assert {len(row) for row in rows} == {len(export_table.COLUMNS)}
    cells = [cell for row in rows for cell in row]
    assert f"'{FORMULA}" in cells
    risky = [cell for cell in cells if cell[:1] in ("=", "+", "@", "\t", "\r") or (cell[:1] == "-" and len(cell) > 1)]
    assert all(is_number(cell) for cell in risky)


def is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True


def test_the_document_keeps_it_byte_for_byte(sheet: Json) -> None:
    told = json.loads(json.dumps(export.document(sheet)))
    assert told["lines"][0]["what"] == EVIL
    assert told["decision"]["approver"] == FORMULA
    assert told["totals"]["offered"] == [{"currency": "USD", "total": "10.00"}]
