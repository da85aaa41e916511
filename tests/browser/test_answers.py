"""What a phone's store and line do with a server's answers: the page's own modules, and answers made up here."""

import mimetypes
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Route

from rackside import phone

ADDRESS = "http://localhost"
MAKE = """
    const { keep, refusedEntries, sendAllAgain, sendAgain, settle, waitingMarks } = await import("/storage/log.js");
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


def test_an_answer_of_the_log_before_settles_nothing(run: Run) -> None:
    """A push was under way to a log that was put back meanwhile, and another tab has seen it."""
    script = """
        const entry = make("site", { name: "x" });
        await keep([entry]);
        await writeFacts({ epoch: "first" });
        await sendAllAgain("here", "second");
        const left = await accepted(entry);
        return [left, (await waitingMarks()).length, (await row(entry.id)).cursor, await readMeta("epoch")];
    """
    assert run(script) == [None, 1, None, "second"]


def test_a_push_answered_by_the_log_before_goes_again(run: Run) -> None:
    script = """
        const { sendWaiting } = await import("/sync/sender.js");
        await keep([make("site", { name: "x" })]);
        await writeFacts({ epoch: "first" });
        const asked = [];
        answers(async (_, { body }) => {
            const { epoch, entries } = JSON.parse(body);
            if (asked.push(epoch) === 1) await sendAllAgain("here", "second");
            const results = entries.map(({ id }, i) => ({ id, status: "accepted", cursor: i + 1 }));
            return json({ results, epoch, photos_wanted: [epoch], server_time: new Date().toISOString() });
        });
        const { wanted } = await sendWaiting(session, () => true, () => {});
        return [asked, wanted, (await waitingMarks()).length];
    """
    assert run(script) == [["first", "second"], ["second"], 0]


def test_a_call_fetched_from_the_log_before_is_not_kept(run: Run) -> None:
    script = """
        const items = [make("sign", {}, { cursor: 9, device: "there" })];
        await writeFacts({ epoch: "second" });
        await keepCall({ items, epoch: "first" }, 1);
        const before = await row(items[0].id);
        await keepCall({ items, epoch: "second" }, 1);
        return [before === undefined, (await row(items[0].id)).cursor];
    """
    assert run(script) == [True, 9]


def test_what_the_server_fails_on_holds_up_fewer_each_time(run: Run) -> None:
    script = """
        const { sendWaiting } = await import("/sync/sender.js");
        await keep(Array.from({ length: 40 }, (_, i) => make("site", { name: String(i) })));
        const sizes = [];
        answers((_, { body }) => {
            sizes.push(JSON.parse(body).entries.length);
            return json({ code: "server_failed" }, 500);
        });
        for (let i = 0; i < 3; i++) await sendWaiting(session, () => true, () => {}).catch(() => {});
        return [sizes, (await waitingMarks()).length];
    """
    assert run(script) == [[40, 20, 10], 40]


PHOTO = """
    const sha256 = "a".repeat(64);
    const photo = make("photo", { sha256, media_type: "image/png", shows: "oil" });
    await keep([photo], [{ sha256, media_type: "image/png", entry: photo.id, bytes: new Blob(["x"]) }]);
    await accepted(photo);
    const { heldPhoto } = await import("/storage/photos.js");
    const freed = async () => (await heldPhoto(sha256)) === undefined;
"""


def test_a_photo_is_freed_only_by_the_hash_of_what_the_server_keeps(run: Run) -> None:
    script = """
        const { sendPhotos } = await import("/sync/photos.js");
        const told = [];
        for (const headers of [{}, { ETag: '"other"' }, { ETag: `"${sha256}"` }]) {
            answers(() => new Response(null, { status: 201, headers }));
            await sendPhotos(session, () => {}).catch((error) => told.push(error.constructor.name));
            told.push(await freed());
        }
        return told;
    """
    assert run(PHOTO + script) == ["NoLine", False, "NoLine", False, True]


def test_a_pull_that_fails_does_not_hold_up_photos(run: Run) -> None:
    script = """
        const { createLine } = await import("/sync/line.js");
        answers((address) => address.includes("/photos/")
            ? new Response(null, { status: 201, headers: { ETag: `"${sha256}"` } }) : json({}, 500));
        const told = [];
        const line = createLine({ session: () => session, isMine: () => true, tell: ({ type }) => told.push(type) });
        await line.poke();
        return [await freed(), told];
    """
    assert run(PHOTO + script) == [True, ["line-started", "photo-left", "line-failed"]]


def test_a_correction_that_waits_outlives_the_first_text_coming_back(run: Run) -> None:
    """The refused text was accepted after all, by a late request, and is pulled before its correction goes."""
    script = """
        const entry = make("site", { name: "typo", notes: "n" });
        await keep([entry]);
        await settle([{ id: entry.id, status: "refused", code: "foreign_site" }], "first");
        await sendAgain(entry.id, { name: "right" });
        const asked = { cursor: 0, seen: 1, epoch: "first", scope: null };
        const page = [{ ...entry, cursor: 5 }];
        const pulled = await keepPage(page, { cursor: 5, epoch: "first", scope: null }, asked, "elsewhere");
        await keepCall({ items: page, epoch: "first" }, 1);
        const told = [pulled, (await row(entry.id)).entry.body.name, (await waitingMarks()).length];
        await settle([{ id: entry.id, status: "refused", code: "id_reused" }], "first");
        told.push((await refusedEntries()).map((one) => one.entry.body.name));
        await sendAgain(entry.id, null, crypto.randomUUID());
        const marks = await waitingMarks();
        return [...told, (await row(marks[0].id)).entry.body.name, await readMeta("cursor")];
    """
    assert run(script) == [True, "right", 1, ["right"], "right", 0]


def test_a_photo_named_twice_goes_when_one_of_its_entries_has_arrived(run: Run) -> None:
    script = """
        const { photoToSend } = await import("/storage/photos.js");
        const again = { ...photo, id: crypto.randomUUID() };
        await keep([again], [{ sha256, media_type: "image/png", entry: again.id, bytes: new Blob(["x"]) }]);
        await settle([{ id: again.id, status: "refused", code: "foreign_site" }], "first");
        const found = await photoToSend(new Set());
        return [found?.sha256 === sha256, await photoToSend(new Set([sha256]))];
    """
    assert run(PHOTO + script) == [True, None]
