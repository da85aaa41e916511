"""The outputs as paper: pages counted and read back, fonts in the file, nothing cut, photos small, all in time."""

import io
import re
import time
from pathlib import Path

import pytest
from PIL import Image

from rackside.reports import outputs
from rackside.reports.pictures import shrunk
from rackside.reports.sheet import Json
from tests.engine.case_files import CASES, f6
from tests.reports.paper import fonts_of, pages_of, pictures_in
from tests.reports.sheets import SITE, sheet_of

pytest.importorskip("weasyprint", exc_type=(ImportError, OSError))
MADE = {title: make for title, make, _, _ in CASES}
AT = "2026-10-14T23:10:00-05:00"
BUDGET = 2.0


@pytest.mark.parametrize("kind", outputs.OUTPUTS)
def test_each_page_names_machine_place_clock_and_its_number(kind: outputs.Kind, tmp_path: Path) -> None:
    pdf = outputs.print_of(sheet_of(f6()), kind)
    pages = pages_of(pdf)
    for number, page in enumerate(pages, 1):
        assert page.endswith(f"All times: America/Chicago, the site's clock. page {number} of {len(pages)}")
        assert page.startswith("Machine A1: " if number > 1 else SITE["name"])
        assert SITE["address"] in page
    assert fonts_of(pdf, tmp_path)
    assert all(fonts_of(pdf, tmp_path).values())


@pytest.mark.parametrize("case", ["F2", "F6", "F7"])
def test_the_page_counts_stay_what_a_reader_expects(case: str) -> None:
    sheet = sheet_of(MADE[case]())
    counted = {kind: len(pages_of(outputs.print_of(sheet, kind))) for kind in outputs.OUTPUTS}
    assert counted["customer"] in (2, 3, 4)
    assert counted["warranty"] in (5, 6, 7, 8)
    assert counted["next"] == 1


def test_a_busy_call_still_leaves_the_next_technician_one_page_that_says_what_it_leaves_out() -> None:
    case = f6()
    case["actions"] = [
        {"id": f"a{place}", "kind": "setting_changed", "what": f"setting {place} " + 6 * "of a long name ", "at": AT}
        for place in range(40)
    ]
    (page,) = pages_of(outputs.print_of(sheet_of(case), "next"))
    assert "setting 0" in page
    assert re.search(r"\d\d more lines stand in the office file\.", page)
    assert "How to read this" in page


def test_the_longest_notes_a_phone_sends_leave_the_next_technician_one_page() -> None:
    case = f6() | {"decision": {"decision": "repair", "cause": "floodback", "reason": "because " * 500}}
    case["actions"] = [{"id": "a", "kind": "cleaned", "what": "strainer " * 440, "before": "word" * 1000, "at": AT}]
    case["signs"] = [*case["signs"], {"sign": "valves_stated", "present": True, "note": "valve " * 600}]
    (page,) = pages_of(outputs.print_of(sheet_of(case), "next"))
    assert "Cleaned: strainer strainer" in page
    assert "How to read this" in page


def test_no_page_break_cuts_a_reading() -> None:
    pages = pages_of(outputs.print_of(sheet_of(long_call()), "warranty"))
    assert len(pages) > 8
    for place in range(1, 61):
        assert len([page for page in pages if {f"from{place}", f"to{place}"} <= set(page.split())]) == 1


def long_call() -> Json:
    """A call with sixty readings whose words take several lines each."""
    case = f6()
    filling = "and goes on for so long that its column must break it several times, "
    case["rounds"][0]["readings"] += [
        {
            "id": f"long-{place}",
            "point": "ambient_temperature",
            "not_taken": f"from{place} {2 * filling} to{place}",
        }
        for place in range(1, 61)
    ]
    return case


def test_a_rail_and_its_sentence_stay_on_one_page() -> None:
    sheet = sheet_of(f6())
    pages = pages_of(outputs.print_of(sheet, "customer"))
    heater = next(page for page in pages if "Each rail is one leg" in page)
    assert "Crankcase heater" in heater
    assert "No amps with 119 V on it" in heater


def with_photos(folder: Path, count: int = 6) -> Json:
    """A sheet with as many photos as a phone takes, each of twelve million points."""
    sheet = sheet_of(f6())
    sheet["photos"] = [a_photo(folder, place) for place in range(count)]
    return sheet


def a_photo(folder: Path, place: int) -> Json:
    path = folder / f"photo-{place}"
    noise = Image.effect_noise((500, 375), 60 + place).resize((4000, 3000))
    exif = Image.Exif()
    exif[0x0112] = 6
    noise.save(path, "JPEG", quality=60, exif=exif)
    shown = {"href": f"/api/v1/photos/{place}", "path": str(path), "width": 3000, "height": 4000, "missing": None}
    about = {"id": str(place), "sha256": str(place), "caption": f"photo {place}", "subject": "part", "of": None}
    return {**shown, **about, "by": "T. Okafor", "at": AT, "taken_at": AT}


def test_photos_are_shrunk_for_print_stand_upright_and_forget_where_they_were_taken(tmp_path: Path) -> None:
    sheet = with_photos(tmp_path, 2)
    pdf = outputs.print_of(sheet, "customer")
    assert sum(path.stat().st_size for path in tmp_path.glob("photo-*")) > 2 * len(pdf)
    found = pictures_in(pdf, tmp_path)
    assert len(found) == 2
    assert all(width < height <= 740 for width, height in found)
    assert b"Exif" not in pdf


def test_a_photo_with_a_transparent_ground_prints_on_white(tmp_path: Path) -> None:
    Image.new("RGBA", (80, 40), (0, 0, 0, 0)).save(tmp_path / "clear.png")
    with Image.open(io.BytesIO(shrunk(str(tmp_path / "clear.png")))) as image:
        assert image.getpixel((40, 20)) == (255, 255, 255)


def test_a_few_lines_of_parts_stay_on_one_page_with_their_heading_and_total(tmp_path: Path) -> None:
    for filler in range(0, 60, 6):
        case = f6()
        case["actions"] = [
            {"id": f"a{place}", "kind": "cleaned", "what": "strainer", "at": AT} for place in range(filler)
        ]
        parts = [{"kind": "part", "what": f"part {place}", "quantity": "1", "price": "5"} for place in range(4)]
        pages = pages_of(outputs.print_of(sheet_of(case, tuple(parts)), "customer"))
        (place,) = [place for place, page in enumerate(pages) if "Parts and labour" in page]
        assert all(words in pages[place] for words in ("part 0", "part 3", "Total of this visit")), filler


@pytest.mark.parametrize("kind", outputs.OUTPUTS)
def test_a_full_call_prints_in_two_seconds_of_work(kind: outputs.Kind, tmp_path: Path) -> None:
    sheet = with_photos(tmp_path)
    began = time.process_time()
    outputs.print_of(sheet, kind)
    assert time.process_time() - began < BUDGET
