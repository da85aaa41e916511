"""The outputs in Chromium: nothing refused by the content policy, nothing too wide, nothing axe finds fault with."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from rackside.reports import outputs
from seed_demo.people import CASTELLANOS
from tests.fixtures.browsers import REPORT_REFUSALS
from tests.fixtures.requirements import require
from tests.office.desk import Desk
from tests.server.house import PASSWORD, House

AXE = Path(__file__).parents[2] / ".venv" / "npm" / "node_modules" / "axe-core" / "axe.min.js"
FAULTS = """async () => (await axe.run()).violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html)}`)"""
TOO_WIDE = """() => document.documentElement.scrollWidth - document.documentElement.clientWidth"""
BROKEN = """() => [...document.images].filter((image) => !image.naturalWidth).map((image) => image.src)"""
SIZES = {"desk": (1280, 900), "hand": (390, 844)}


@pytest.fixture(params=SIZES.values(), ids=SIZES)
def reader(
    request: pytest.FixtureRequest, chromium: Browser, house: House, desk: Desk
) -> Iterator[tuple[Page, list[str]]]:
    width, height = request.param
    context = chromium.new_context(base_url=house.url, viewport={"width": width, "height": height})
    context.add_init_script(REPORT_REFUSALS)
    page, faults = context.new_page(), []
    page.on("console", lambda message: faults.append(message.text) if message.type == "error" else None)
    page.goto("/office")
    page.fill("[name=name]", CASTELLANOS.name)
    page.fill("[name=password]", PASSWORD)
    page.click("button.main")
    yield page, faults
    context.close()


@pytest.mark.parametrize("kind", outputs.OUTPUTS)
def test_an_output_is_whole_fits_and_can_be_read_by_all(
    reader: tuple[Page, list[str]], flooded: str, kind: outputs.Kind
) -> None:
    page, faults = reader
    assert page.goto(f"/office/calls/{flooded}/report?kind={kind}").status == 200
    for image in page.locator("img").all():
        image.scroll_into_view_if_needed()
    assert page.evaluate(TOO_WIDE) <= 0
    page.wait_for_load_state("networkidle")
    assert page.evaluate(BROKEN) == []
    require("axe-core", AXE.exists(), "say make setup")
    page.evaluate(AXE.read_text())
    assert page.evaluate(FAULTS) == []
    assert faults == []
