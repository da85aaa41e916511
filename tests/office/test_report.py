"""The customer's report: the facts of a known call in plain words, as HTML and as PDF, and what it must never say."""

import re
from types import SimpleNamespace
from typing import Any

import pytest

from rackside.records import Refused
from rackside.reports import pdf
from seed_demo.story import Story
from tests.office.desk import Desk, Kept, keep_story, words

NEVER = re.compile(r"\b(compliant|certified|is safe|is dead|all clear|guaranteed)\b", re.I)


@pytest.fixture
def kept_contactor(desk: Desk, story: Story, kept: Kept) -> str:
    """The report of the call on B1: a pitted contactor that is good, and a plugged strainer."""
    return desk.get(f"/office/calls/{keep_story(story, kept, 'F4')}/report")


def test_it_tells_the_call_in_plain_words(kept_contactor: str) -> None:
    told = words(kept_contactor)
    assert "Tannery Lane Cold Store, 14 Tannery Lane, Harrow Bend" in told
    assert "Machine B1: what was found and what was done" in told
    assert "Called 20 Nov 2026 06:20" in told
    assert "Visited by T. Okafor" in told
    assert "Repaired. Cause found: Oil level regulator. Strainer was plugged" in told
    assert "T. Okafor adds: No contactor." in told
    assert "Cleaned: oil regulator strainer of B1 (before: packed with copper-coloured sludge; after: clean)" in told
    assert "This machine is under watch until 04 Dec 2026." in told
    assert "All times: America/Chicago, the site's clock." in told
    assert "It does not say that a circuit is dead, that a machine is safe" in told


def rows_of(table: str) -> list[str]:
    return [words(row) for row in re.findall(r"<tr>.*?</tr>", table, re.S)[1:]]


def test_five_numbers_stand_before_and_after_worst_first(kept_contactor: str) -> None:
    five, *rest = (rows_of(table) for table in re.findall(r'<table class="numbers">.*?</table>', kept_contactor, re.S))
    assert len(five) == 5
    assert five[0] == "Net oil pressure 11 ± 0.82 psi fail 31 ± 0.84 psi pass"
    assert "Contactor poles 44 ± 1.3 mV pass 44 ± 1.3 mV pass" in [*five, *(row for rows in rest for row in rows)]


def test_every_number_has_its_rail_and_its_words_for_ears(kept_contactor: str) -> None:
    rails = re.findall(r'<svg class="rail" role="img" aria-label="([^"]+)"', kept_contactor)
    assert len(rails) >= 5
    oil = "Net oil pressure: 11 ± 0.82 psi, fail. Limits: watch below 20 psi, watch above 60 psi, fail below 12 psi."
    assert rails[0] == oil
    amps = "Current unbalance: L1 30.5 A, 0 %, pass; L2 30.8 A, +0.984 %, pass; L3 30.2 A, -0.984 %, pass."
    assert any(label.startswith(amps) for label in rails)
    assert 'class="rail-mark is-fail"' in kept_contactor


def test_it_promises_nothing(kept_contactor: str) -> None:
    without_caution = re.sub(r'<section class="caution">.*?</section>', "", kept_contactor, flags=re.S)
    assert NEVER.findall(words(without_caution)) == []
    assert not re.search(r"<script|\sstyle=|https?:", kept_contactor)


def test_pdf_comes_from_the_same_page(desk: Desk, story: Story, kept: Kept) -> None:
    pytest.importorskip("weasyprint", exc_type=(ImportError, OSError))
    call = keep_story(story, kept, "F2")
    answer = desk.http.get(f"/office/calls/{call}/report.pdf")
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF-")
    assert len(re.findall(rb"/Type /Page\b", answer.content)) in range(2, 6) or b"/ObjStm" in answer.content


def test_a_missing_pdf_engine_is_said_plainly(
    desk: Desk, story: Story, kept: Kept, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_library(name: str) -> Any:
        raise OSError(f"cannot load library pango for {name}")

    monkeypatch.setattr(pdf, "importlib", SimpleNamespace(import_module=no_library))
    with pytest.raises(Refused) as refused:
        pdf.pdf_of("<p>anything</p>")
    assert refused.value.code == "report_engine_missing"
    call = keep_story(story, kept, "F7")
    page = words(desk.get(f"/office/calls/{call}/report.pdf", 503))
    assert "cannot load library pango" in page
    assert "The HTML report has the same content." in page
