"""A phone in a real browser: the page's own store and line, driven through the page's own modules."""

import base64
import json
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import httpx
from playwright.sync_api import Error, Page

from tests.faults.replica import Replica
from tests.fixtures.browsers import Phone

Json = dict[str, Any]
# Seconds after which something that must happen counts as never; far beyond what a loaded machine takes.
PATIENCE = 300
# Judging is not what these nights are about; without it they are many more.
NO_ENGINE = 'globalThis.Worker = class { constructor() { throw new Error("no engine tonight"); } };'
NO_LOCKS = "Object.defineProperty(Navigator.prototype, 'locks', { value: undefined });"
# A clock that is wrong by what the page's own storage says, from the next reload on.
SKEW = """(() => {
    const skew = location.protocol === "http:" ? Number(localStorage.getItem("test-skew") ?? 0) : 0;
    if (!skew) return;
    const Right = Date;
    globalThis.Date = class extends Right {
        constructor(...given) { given.length ? super(...given) : super(Right.now() + skew); }
        static now() { return Right.now() + skew; }
    };
})()"""
SIGN_IN = """async (session) => {
    const { writeMeta } = await import("/storage/meta.js");
    await writeMeta("session", session);
}"""
KEEP = """async ([entries, photos]) => {
    const { keep } = await import("/storage/log.js");
    const bytes = (text) => Uint8Array.from(atob(text), (one) => one.charCodeAt(0)).buffer;
    try {
        await keep(entries, photos.map((photo) => ({ ...photo, bytes: bytes(photo.bytes) })));
        return "";
    } catch (error) {
        return error.name;
    } finally {
        dispatchEvent(new Event("online"));
    }
}"""
HELD = """async () => {
    const { transact } = await import("/storage/database.js");
    const all = ["entries", "outbox", "refused", "photos", "meta"];
    return transact(all, "readonly", async (tx) => {
        const whole = all.slice(0, 4).map((name) => tx.objectStore(name).getAll());
        const [rows, outbox, refused, photos] = await Promise.all(whole);
        const meta = (key) => tx.objectStore("meta").get(key);
        return {
            rows: rows.map((row) => ({ ...row.entry, cursor: row.cursor })), outbox: outbox.map(({ id }) => id),
            refused: refused.map(({ id, code }) => [id, code]), photos: photos.length,
            cursor: await meta("cursor") ?? 0, epoch: await meta("epoch") ?? null,
        };
    });
}"""
READY = """() => Promise.race([
    navigator.serviceWorker.ready.then(() => true),
    new Promise((_, fail) => setTimeout(() => fail(new Error("the page is not whole on this phone")), 300_000)),
])"""
POKE = 'async () => { dispatchEvent(new Event("online")); }'


class Pocket:
    """One person's phone. `told` is what its page has said is kept, and what a writer may build upon."""

    def __init__(self, phone: Phone, address: str, locks: bool = True) -> None:
        self.phone, self.address, self.locks = phone, address, locks
        self.tabs: list[Page] = []
        self._watch()

    def begin(self, session: Json) -> None:
        """A phone just bought, with the page on it, in the hands of this person."""
        self.session = session
        self.told = Replica(session["device"], session["person"])
        self.phone.page.goto("about:blank")
        self.protocol("Storage.clearDataForOrigin", storageTypes="indexeddb,local_storage")
        self.open()
        self.sign_in()

    def _watch(self) -> None:
        self.phone.context.set_default_timeout(PATIENCE * 1000)
        self.phone.context.set_default_navigation_timeout(PATIENCE * 1000)
        self.phone.context.add_init_script(NO_ENGINE)
        self.phone.context.add_init_script(SKEW)
        if not self.locks:
            self.phone.context.add_init_script(NO_LOCKS)

    def open(self) -> None:
        """Go to the page; before it is whole on this phone, a server that is just gone means trying again."""
        for patience in range(20):
            try:
                self.phone.page.goto(self.address, wait_until="load")
                return
            except Error:
                if patience == 19:
                    raise
                time.sleep(0.5)

    def sign_in(self) -> None:
        """As the sign-in screen does with what the server gave; then the page is whole on this phone."""
        self.ask(SIGN_IN, self.session)
        self.ask(READY)
        self.open()

    def ask(self, script: str, argument: Any = None) -> Any:
        return self.phone.page.evaluate(script, argument)

    def keep(self, entries: list[Json], photos: dict[str, bytes]) -> str:
        """Keep entries as one act; the answer is "" once they are safe, or the name of what went wrong."""
        held = [self._photo(entry, photos) for entry in entries if entry["kind"] == "photo"]
        trouble: str = self.ask(KEEP, [entries, [one for one in held if one]])
        if not trouble:
            self.told.keep(*entries)
        return trouble

    @staticmethod
    def _photo(entry: Json, photos: dict[str, bytes]) -> Json | None:
        name = entry["body"]["sha256"]
        if name not in photos:
            return None
        content = base64.b64encode(photos[name]).decode()
        return {"sha256": name, "media_type": "image/png", "entry": entry["id"], "bytes": content}

    def held(self) -> Json:
        found: Json = self.ask(HELD)
        return found

    def says(self) -> str:
        """What the page tells its person about the line, for whoever looks into a failed night."""
        return " / ".join(self.phone.page.locator(".send-line, .notice").all_inner_texts())

    def look(self) -> None:
        """Learn what has come, so that the person builds upon it."""
        rows = {row["id"]: row for row in self.held()["rows"]}
        self.told.commit(rows=self.told.store.rows | rows)

    def poke(self) -> None:
        self.ask(POKE)

    def dies(self) -> None:
        """The battery is empty, and the phone is started again."""
        self.tabs.clear()
        self.phone.kill()
        self.phone.open()
        self._watch()
        self.open()

    @contextmanager
    def full(self) -> Iterator[None]:
        """Not a byte of room. Only a browser that has just started has not yet counted on any."""
        self.tabs.clear()
        self.phone.kill()
        self.phone.open()
        self._watch()
        asked = self.phone.context.new_cdp_session(self.phone.page)
        asked.send("Storage.overrideQuotaForOrigin", {"origin": self.address, "quotaSize": 1})
        self.open()
        try:
            yield
        finally:
            asked.detach()

    def other_tab(self) -> None:
        """Open a second tab, or close it."""
        if self.tabs:
            self.tabs.pop().close()
            return
        self.tabs.append(self.phone.context.new_page())
        self.tabs[-1].goto(self.address)

    def clock_jumps(self, milliseconds: int) -> None:
        self.ask("skew => localStorage.setItem('test-skew', skew)", milliseconds)
        self.phone.page.reload()

    def protocol(self, command: str, **members: Any) -> None:
        session = self.phone.context.new_cdp_session(self.phone.page)
        session.send(command, {"origin": self.address, **members})
        session.detach()

    def emptied(self) -> None:
        """The browser takes back all it lent; the person signs in again."""
        while self.tabs:
            self.tabs.pop().close()
        self.protocol("Storage.clearDataForOrigin", storageTypes="all")
        self.told.evict()
        self.open()
        self.sign_in()

    def close_tabs(self) -> None:
        while self.tabs:
            try:
                self.tabs.pop().close()
            except Error:
                pass


def signed_in(url: str, name: str, password: str) -> Json:
    """Sign a phone in, straight at the server."""
    asked = {"name": name, "password": password, "device": "phone"}
    answer = httpx.post(f"{url}/api/v1/devices", json=asked, trust_env=False, timeout=PATIENCE)
    assert answer.status_code == 201, answer.text
    return json.loads(answer.text)
