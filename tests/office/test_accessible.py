"""Every page of the office over the demo, asked by axe-core, at a desk and on a tablet, dark and light."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from seed_demo import load
from seed_demo.loading import SEED, story_of
from tests.fixtures.browsers import REPORT_REFUSALS
from tests.fixtures.databases import Cluster
from tests.office.conftest import NOW
from tests.server.house import PASSWORD, House, running

AXE = Path(__file__).parents[2] / ".venv" / "npm" / "node_modules" / "axe-core" / "axe.min.js"
LOOKS = [("desk", (1280, 900), "dark"), ("tablet", (820, 1180), "light")]
ADMIN = "Demo admin"
ASK = """async () => {
    const found = await axe.run(document, {resultTypes: ["violations"]});
    return found.violations.map((one) => one.id + ": " + one.nodes.map((node) => node.target.join(" ")).join(" | "));
}"""
UNFOLD = "() => document.querySelectorAll('details').forEach((one) => { one.open = true; })"
TOO_WIDE = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"


@pytest.fixture(scope="module", params=["sqlite", "postgresql"])
def demo(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    """The demo year in a house of its own, on each database."""
    folder = tmp_path_factory.mktemp("demo")
    url = f"sqlite:///{folder / 'rackside.db'}"
    if request.param == "postgresql":
        cluster: Cluster = request.getfixturevalue("postgres_cluster")
        cluster.run("create database office_demo")
        url = cluster.url("office_demo")
    with running(url, folder) as house:
        house.person(ADMIN, "admin")
        load(house.url, ADMIN, PASSWORD, SEED, NOW)
        yield house


@pytest.fixture(params=LOOKS, ids=[look[0] for look in LOOKS])
def page(request: pytest.FixtureRequest, chromium: Browser, demo: House) -> Iterator[Page]:
    _, (width, height), scheme = request.param
    size = {"width": width, "height": height}
    # axe-core comes from this machine, not from the office: its own content policy stands aside for it alone.
    context = chromium.new_context(base_url=demo.url, viewport=size, color_scheme=scheme, bypass_csp=True)
    context.add_init_script(REPORT_REFUSALS)
    context.add_init_script(path=AXE)
    opened = context.new_page()
    opened.goto("/office")
    opened.fill("[name=name]", ADMIN)
    opened.fill("[name=password]", PASSWORD)
    opened.click("button.main")
    yield opened
    context.close()


def places() -> list[str]:
    """Return every kind of page once, with the demo's own things."""
    story = story_of(SEED, NOW)
    machine, site = f"/machines/{story.machines['B4']}", f"/sites/{story.site}"
    lists = ["", "/calls", "/calls?complaint=oil_trip", "/fleet", "/machines?retired=yes", "/sites", "/people"]
    lists += ["/devices", "/import", "/search", "/search?q=oil+trip", site, f"{site}/refrigerant", f"{site}/register"]
    own = [machine + part for part in ("", "/trends", "/plate", "/limits", "/ratings", "/labels")]
    calls = [f"/calls/{story.id_of(name + ' call')}" for name in ("F1", "F6", "F7")]
    return [*lists, *own, *calls]


def test_axe_finds_nothing_on_any_page(page: Page) -> None:
    found: dict[str, list[str]] = {}
    for place in places():
        answer = page.goto(f"/office{place}")
        assert answer is not None
        assert answer.status == 200, place
        page.evaluate(UNFOLD)
        wrong = page.evaluate(ASK)
        if wrong:
            found[re.sub(r"[0-9a-f-]{36}", "…", place)] = wrong
        assert page.evaluate(TOO_WIDE) <= 0, f"{place} is too wide"
    assert found == {}


def test_sign_in_and_a_refusal_are_clean_too(page: Page) -> None:
    page.goto("/office/calls?state=lost")
    assert page.evaluate(ASK) == []
    page.context.clear_cookies()
    page.goto("/office/sign-in")
    assert page.evaluate(ASK) == []


def test_a_webhook_with_its_secret_and_log_is_clean_too(page: Page) -> None:
    page.goto("/office/webhooks")
    page.fill("[name=url]", "https://shop.invalid/rackside")
    page.check("[value='call.submitted']")
    page.click("main button.main")
    page.wait_for_selector("text=whsec_")
    place = page.url
    for _ in range(2):
        page.evaluate(UNFOLD)
        assert page.evaluate(ASK) == []
        assert page.evaluate(TOO_WIDE) <= 0, f"{place} is too wide"
        page.click("text=Send a test message")
        page.wait_for_selector("text=What it says")
    page.goto("/office/webhooks")
    assert page.evaluate(ASK) == []


def test_the_page_of_the_api_is_clean_too(page: Page) -> None:
    page.goto("/api/v1/reference")
    page.evaluate(UNFOLD)
    assert page.evaluate(ASK) == []
    assert page.evaluate(TOO_WIDE) <= 0
    page.set_viewport_size({"width": 390, "height": 844})
    assert page.evaluate(TOO_WIDE) <= 0
