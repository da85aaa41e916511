"""Inside the page of a phone that has an open call: its own modules, asked by a test."""

import pytest
from playwright.sync_api import Page

from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

MAKE = """
    const { keep, rowsOfCall, waitingMarks } = await import("/storage/log.js");
    const { allMeta } = await import("/storage/meta.js");
    const { session } = await allMeta();
    const call = location.hash.split("/")[2];
    const sign = (body, id = crypto.randomUUID()) => ({ id, schema: 1, kind: "sign", call, base: [],
        made_at: new Date().toISOString(), device: session.device, author: session.person, body });
    const count = async () => [(await rowsOfCall(call)).length, (await waitingMarks()).length];
"""


HELD = """
    const { transact } = await import("/storage/database.js");
    const held = () => transact(["entries", "meta"], "readonly", async (tx) =>
        [await tx.objectStore("entries").count(), (await tx.objectStore("meta").get("cursor")) ?? 0]);
"""


@pytest.fixture
def page(demo: Server, phone: Phone) -> Page:
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.open_call("B3")
    technician.wait_until_sent()
    technician.tab("measure")
    return phone.page


def within(page: Page, script: str) -> object:
    return page.evaluate(f"async () => {{ {MAKE} {script} }}")
