"""Every screen by axe-core, in both themes, wide and narrow: nothing to find by WCAG 2.2 AA, nothing past the edge."""

from pathlib import Path

import pytest

from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

AXE = Path(__file__).parents[2] / ".venv/npm/node_modules/axe-core/axe.min.js"
RULES = "{runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']}"
FOUND = f"""async () => (await axe.run(document, {RULES})).violations.flatMap(({{ id, nodes }}) =>
    nodes.map(({{ target, failureSummary }}) => `${{id}}: ${{target.join(" ")}}: ${{failureSummary}}`))"""
STEPS = (
    *("alarm", "machine", "look", "supply", "control", "make_safe", "isolated", "start", "running", "oil", "heat"),
    *("repair", "as_left", "gates", "decision", "hand_over"),
)
SHEETS = ("event/trip", "action/valve_moved", "line/", "override/restart~oil_level", "meter/", "machine/plate")
ALONE = ("", "ready", "new", "sheet/site")
PLACES = (
    *ALONE,
    *("measure", "signs", "findings", "close"),
    *(f"step/{step}" for step in STEPS),
    *(f"sheet/{sheet}" for sheet in SHEETS),
    *(
        "as_found/oil_level",
        "as_found/line_voltage",
        "as_found/control_chain",
        "as_found/oil_colour",
        "as_found/running_current",
        "as_found/running_current/beside",
        "starts/as_found",
    ),
)


@pytest.fixture
def technician(demo: Server, phone: Phone) -> Technician:
    person = Technician(phone, demo.url)
    person.sign_in()
    person.open_call("B3")
    person.write("event", "trip", ("Oil control",), at="01:14")
    person.read("as_found", "oil_level", {"value": "0.5"})
    person.read("as_found", "line_voltage", {"L1-L2": "478", "L2-L3": "480", "L3-L1": "479"}, state="stopped")
    return person


@pytest.mark.parametrize(("theme", "width"), [("dark", 390), ("sun", 320)])
def test_every_screen_can_be_used_by_everybody(technician: Technician, theme: str, width: int) -> None:
    page = technician.page
    page.set_viewport_size({"width": width, "height": 844 if width == 390 else 568})
    page.evaluate("theme => { document.documentElement.dataset.theme = theme; }", theme)
    page.evaluate(AXE.read_text())
    faults = []
    for place in PLACES:
        technician.go(f"#/{place}" if place in ALONE else f"#/call/{technician.call}/{place}")
        page.locator("main:not([aria-busy])").wait_for()
        page.evaluate("theme => { document.documentElement.dataset.theme = theme; }", theme)
        faults += [f"{place}: {fault}" for fault in page.evaluate(FOUND)]
        past = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        faults += [f"{place}: {past} px past the edge"] if past else []
    assert faults == []
