"""The page's own modules in a browser without a server: a test makes up what would answer."""

import mimetypes
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Route

from rackside import phone

ADDRESS = "http://localhost"
MAKE = """
    const { keep, refusedEntries, rowsOfCall, sendAllAgain, sendAgain, settle, waitingMarks } =
        await import("/storage/log.js");
    const { transact } = await import("/storage/database.js");
    const { readMeta, writeFacts } = await import("/storage/meta.js");
    const { keepCall, keepPage } = await import("/storage/pulled.js");
    const make = (kind, body, more) => ({ id: crypto.randomUUID(), schema: 1, kind, call: null, base: [],
        made_at: "2026-10-14T21:40:00-05:00", device: "here", author: "A", body, ...more });
    const row = (id) => transact(["entries"], "readonly", (tx) => tx.objectStore("entries").get(id));
    const accepted = (entry, cursor = 1) => settle([{ id: entry.id, status: "accepted", cursor }], "first");
    const session = { token: "t", device: "here" };
    const answers = (answer) => { window.fetch = async (address, request = {}) => answer(String(address), request); };
    const json = (body, status = 200) => new Response(JSON.stringify(body), { status });
"""
Run = Callable[[str], object]


def page_file(route: Route) -> None:
    path = route.request.url.removeprefix(ADDRESS)
    if path == "/":
        route.fulfill(body="<title>phone</title>", content_type="text/html")
    else:
        route.fulfill(path=phone.WEB / path[1:], content_type=mimetypes.guess_type(path)[0] or "text/javascript")


@pytest.fixture
def run(chromium: Browser) -> Iterator[Run]:
    context = chromium.new_context()
    context.route("**/*", page_file)
    page = context.new_page()
    page.goto(ADDRESS + "/")
    yield lambda script: page.evaluate(f"async () => {{ {MAKE} {script} }}")
    context.close()
