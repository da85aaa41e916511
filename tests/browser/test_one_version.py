"""One whole version of the page or none: half-deployed is refused, a new one waits for the person's tap."""

import shutil
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import uvicorn
from playwright.sync_api import Error, Page, expect

from rackside import app, phone
from rackside.settings import Settings
from seed_demo.people import OKAFOR
from tests.fixtures.servers import free_port

CACHES = "async () => (await caches.keys()).filter((name) => name.startsWith('rackside-page-'))"
WORDS = "() => fetch('/words/en.js').then((answer) => answer.text())"
# A slow take-over loads the page twice; then this is said by the last one.
TAKEN_OVER = "sessionStorage.length === 0"
MARK = "// a newer version"
INSTALL = """async () => {
    const found = await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" });
    const worker = found.installing ?? found.waiting ?? found.active;
    while (!["activated", "redundant"].includes(worker.state)) await new Promise((next) => setTimeout(next, 50));
    return worker.state;
}"""


class Deployment:
    """A server in this process whose page files a test may change, before or after it reads them."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.web, self.port = folder / "web", free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        shutil.copytree(phone.WEB, self.web)
        monkeypatch.setattr(phone, "WEB", self.web)
        self.read_files()
        settings = Settings(database_url=f"sqlite:///{folder / 'own.db'}")
        config = uvicorn.Config(app.create_app(settings), port=self.port, log_level="error")
        self.server = uvicorn.Server(config)
        self.thread = threading.Thread(target=self.server.run)
        self.thread.start()
        while not self.server.started:
            time.sleep(0.02)

    def read_files(self) -> None:
        """What a restart of the server does: list and hash what is on disk now."""
        phone.release.cache_clear()
        phone.release()

    def change(self, name: str, ending: str) -> None:
        with (self.web / name).open("a") as file:
            file.write(ending)

    def stop(self) -> None:
        self.server.should_exit = True
        self.thread.join(20)


@pytest.fixture
def deployment(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Deployment]:
    started = Deployment(tmp_path, monkeypatch)
    yield started
    started.stop()
    monkeypatch.undo()
    phone.release.cache_clear()


def wait_until(page: Page, holds: str) -> None:
    """A page may be on its way to its next self whenever it is asked."""
    deadline = time.monotonic() + 20
    while time.monotonic() < deadline:
        try:
            if page.evaluate(holds):
                return
        except Error:
            pass
        page.wait_for_timeout(50)
    raise AssertionError(holds)


def test_a_half_deployed_version_is_refused_until_repaired(deployment: Deployment, phone_page: Page) -> None:
    whole = (deployment.web / "views/ready.js").read_text()
    deployment.change("views/ready.js", "\n// written after the list was made\n")
    phone_page.goto(deployment.url)
    assert phone_page.evaluate(INSTALL) == "redundant"
    assert phone_page.evaluate(CACHES) == []

    (deployment.web / "views/ready.js").write_text(whole)
    phone_page.reload()
    assert phone_page.evaluate(INSTALL) == "activated"
    assert phone_page.evaluate(CACHES) == [f"rackside-page-{phone.release().digest}"]


def test_a_new_version_waits_for_the_tap_and_leaves_one_cache(deployment: Deployment, phone_page: Page) -> None:
    phone_page.goto(deployment.url)
    assert phone_page.evaluate(INSTALL) == "activated"
    deployment.change("words/en.js", f"\n{MARK}\n")
    deployment.read_files()
    phone_page.reload()
    take_over = phone_page.get_by_role("button", name="Take it over")
    expect(take_over).to_be_visible(timeout=20_000)
    assert len(phone_page.evaluate(CACHES)) == 2
    assert MARK not in phone_page.evaluate(WORDS)
    with phone_page.expect_event("load"):
        take_over.click()
    wait_until(phone_page, TAKEN_OVER)
    assert phone_page.evaluate(INSTALL) == "activated"
    assert MARK in phone_page.evaluate(WORDS)
    assert phone_page.evaluate(CACHES) == [f"rackside-page-{phone.release().digest}"]


HOLDS = """
self.addEventListener("message", (event) => event.data === "hold" && event.waitUntil(whileItStands(event.source.id)));
async function whileItStands(page) {
    while (await self.clients.get(page)) await new Promise((go) => setTimeout(go, 100));
}
"""


def test_a_version_held_back_while_the_page_stands_is_taken_over_all_the_same(
    deployment: Deployment, phone_page: Page
) -> None:
    """The old worker is busy for this page. Nothing of the page may then be of the version before."""
    deployment.change("sw.js", HOLDS)
    deployment.read_files()
    phone_page.goto(deployment.url)
    assert phone_page.evaluate(INSTALL) == "activated"
    deployment.change("app.js", "\nglobalThis.newer = true;\n")
    deployment.read_files()
    phone_page.reload()
    take_over = phone_page.get_by_role("button", name="Take it over")
    expect(take_over).to_be_visible(timeout=20_000)
    phone_page.evaluate("navigator.serviceWorker.controller.postMessage('hold')")
    with phone_page.expect_event("load"):
        take_over.click()
    expect(take_over).not_to_be_visible(timeout=20_000)
    wait_until(phone_page, f"globalThis.newer === true && {TAKEN_OVER}")


def test_over_plain_http_from_elsewhere_the_page_says_so(deployment: Deployment, phone_page: Page) -> None:
    phone_page.add_init_script("Object.defineProperty(window, 'isSecureContext', { value: false })")
    phone_page.goto(deployment.url)
    expect(phone_page.get_by_text("This address can't work without signal")).to_be_visible()


def test_a_wrong_password_is_told_with_what_to_do(deployment: Deployment, phone_page: Page) -> None:
    phone_page.goto(deployment.url)
    phone_page.get_by_label("Your name").fill(OKAFOR.name)
    phone_page.get_by_label("Password").fill("not it")
    phone_page.get_by_role("button", name="Sign in").click()
    expect(phone_page.get_by_role("alert")).to_be_visible()
