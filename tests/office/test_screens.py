"""Office pages in Chromium: nothing refused by the content policy, nothing too wide, whole without script."""

import pytest
from playwright.sync_api import Browser, Page

from seed_demo.people import CASTELLANOS, OKAFOR
from seed_demo.story import Story
from tests.fixtures.browsers import REPORT_REFUSALS
from tests.office.desk import Kept, keep_story
from tests.server.house import PASSWORD, House

SIZES = {"desk": (1280, 900), "tablet": (820, 1180), "hand": (390, 844)}
TOO_WIDE = """() => document.documentElement.scrollWidth - document.documentElement.clientWidth"""


def signed_in(browser: Browser, house: House, size: tuple[int, int], script: bool) -> tuple[Page, list[str]]:
    screen = {"width": size[0], "height": size[1]}
    context = browser.new_context(base_url=house.url, viewport=screen, java_script_enabled=script)
    context.add_init_script(REPORT_REFUSALS)
    page, faults = context.new_page(), []
    page.on("console", lambda message: faults.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.goto("/office")
    page.fill("[name=name]", CASTELLANOS.name)
    page.fill("[name=password]", PASSWORD)
    page.click("button.main")
    return page, faults


@pytest.fixture
def calls(story: Story, kept: Kept) -> list[str]:
    kept.phone_of(CASTELLANOS)
    return [keep_story(story, kept, name) for name in ("F2", "F4", "F6", "F7")]


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
def test_every_page_fits_and_nothing_is_refused(
    chromium: Browser, house: House, story: Story, calls: list[str], size: tuple[int, int]
) -> None:
    page, faults = signed_in(chromium, house, size, script=True)
    machine, site = f"/machines/{story.machines['B1']}", f"/sites/{story.site}"
    places = ["", "/calls", "/fleet", "/machines", "/sites", "/people", "/devices", "/search?q=oil", site]
    places += [f"{site}{part}" for part in ("/refrigerant", "/register", "/labels")]
    places += [f"{machine}{part}" for part in ("", "/trends", "/plate", "/limits", "/ratings", "/labels")]
    for place in [*places, *(f"/calls/{call}" for call in calls), f"/calls/{calls[0]}/report"]:
        answer = page.goto(f"/office{place}")
        assert answer.status == 200
        assert page.evaluate(TOO_WIDE) <= 0, f"/office{place} is too wide at {size}"
    assert faults == []
    page.context.close()


def test_a_call_is_reviewed_without_script(chromium: Browser, house: House, calls: list[str], kept: Kept) -> None:
    page, _ = signed_in(chromium, house, SIZES["desk"], script=False)
    page.goto(f"/office/calls/{calls[2]}")
    page.fill("textarea[name=note]", "Read on the tablet.")
    page.click("button[value=accepted]")
    assert page.locator("[role=status]").inner_text() == "Accepted."
    assert kept.phone_of(OKAFOR).get(f"/calls/{calls[2]}")["state"] == "watching"
    page.context.close()


def test_a_trend_is_looked_at_closer_and_its_point_opens_the_call(
    chromium: Browser, house: House, story: Story, calls: list[str]
) -> None:
    page, faults = signed_in(chromium, house, SIZES["desk"], script=True)
    page.goto(f"/office/calls/{calls[1]}")
    page.goto(f"/office/machines/{story.machines['B1']}/trends")
    plot = page.locator("#poles .u-over")
    plot.wait_for()
    assert not page.locator("#poles .picture-still").is_visible()
    box = plot.bounding_box()
    assert box is not None
    # One visit stands in the middle of its plot.
    plot.click(position={"x": box["width"] / 2, "y": box["height"] / 2})
    page.wait_for_url(f"**/office/calls/{calls[1]}")
    assert faults == []
    page.context.close()


def test_trends_are_whole_without_script(chromium: Browser, house: House, story: Story, calls: list[str]) -> None:
    page, _ = signed_in(chromium, house, SIZES["desk"], script=False)
    page.goto(f"/office/calls/{calls[1]}")
    page.goto(f"/office/machines/{story.machines['B1']}/trends")
    assert page.locator("#poles .picture-still").is_visible()
    page.locator("#poles summary").click()
    page.locator(f"#poles a[href='/office/calls/{calls[1]}']").first.click()
    assert page.url.endswith(calls[1])
    page.context.close()
