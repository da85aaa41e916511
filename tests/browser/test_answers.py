"""What a phone's store and line do with a server's answers: the page's own modules, and answers made up here."""

import pytest

from tests.browser.alone import Run
from tests.browser.alone import run as run


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


ANSWERED = """
    const { sendWaiting } = await import("/sync/sender.js");
    const now = { epoch: "first", server_time: new Date().toISOString() };
    const taken = ({ id }, i) => ({ id, status: "accepted", cursor: i + 1 });
    const results = (entries) => json({ results: entries.map(taken), photos_wanted: [], ...now });
    const sizes = [];
    const failing = (bad) => answers((_, { body }) => {
        const { entries } = JSON.parse(body);
        sizes.push(entries.length);
        return bad(entries) ? json({ code: "server_failed" }, status) : results(entries);
    });
    const told = ({ trouble }) => trouble?.status ?? "";
    const send = () => sendWaiting(session, () => true, () => {}).then(told, (error) => error.status);
    const left = async () => (await waitingMarks()).map(({ id }) => id);
"""


@pytest.mark.parametrize("status", [413, 500])
def test_what_the_server_fails_on_alone_holds_up_only_what_leans_on_it(run: Run, status: int) -> None:
    """Found by halves, gone past, told, and offered again with the next exchange."""
    script = """
        const entries = Array.from({ length: 40 }, (_, i) => make("site", { name: String(i) }));
        const leaning = make("machine", { site: entries[20].id, tag: "B1" });
        await keep([...entries, leaning]);
        failing((sent) => sent.some(({ id }) => id === entries[20].id));
        const first = [await send(), await left()];
        failing(() => false);
        return [...first, await send(), await left(), [entries[20].id, leaning.id]];
    """
    told, waits, after, none, names = run(f"const status = {status};" + ANSWERED + script)
    assert (told, after, none) == (status, "", [])
    assert waits == names


def test_a_server_that_fails_on_everything_is_not_asked_for_each_entry(run: Run) -> None:
    """Fewer at once each time, and after a few alone it is left in peace until the next exchange."""
    script = """
        await keep(Array.from({ length: 40 }, (_, i) => make("site", { name: String(i) })));
        failing(() => true);
        const both = [await send(), await send()];
        return [sizes, both, (await left()).length];
    """
    sizes, told, waits = run("const status = 500;" + ANSWERED + script)
    assert sizes == [40, 20, 10, 5, 2, *[1] * 6, *[1] * 6]
    assert (told, waits) == ([500, 500], 40)


def test_many_bad_ones_in_a_row_hold_up_the_rest_for_some_exchanges_only(run: Run) -> None:
    script = """
        const entries = Array.from({ length: 40 }, (_, i) => make("site", { name: String(i) }));
        await keep(entries);
        const bad = new Set(entries.slice(0, 13).map(({ id }) => id));
        failing((sent) => sent.some(({ id }) => bad.has(id)));
        const waits = [];
        for (let i = 0; i < 4; i++) waits.push([await send(), (await left()).length]);
        failing(() => false);
        return [waits, await send(), await left()];
    """
    waits, after, none = run("const status = 500;" + ANSWERED + script)
    assert waits[-1] == [500, 13]
    assert (after, none) == ("", [])


def test_a_server_that_is_busy_is_asked_once_an_exchange(run: Run) -> None:
    script = """
        await keep(Array.from({ length: 40 }, (_, i) => make("site", { name: String(i) })));
        failing(() => true);
        for (let i = 0; i < 3; i++) await send();
        return [sizes, (await left()).length];
    """
    assert run("const status = 503;" + ANSWERED + script) == [[40, 20, 10], 40]


def test_the_rest_is_read_although_one_entry_does_not_come_through(run: Run) -> None:
    script = """
        const { createLine } = await import("/sync/line.js");
        const now = { epoch: "first", server_time: new Date().toISOString() };
        const stuck = make("site", { name: "stuck" });
        await keep([stuck]);
        const items = [make("site", { name: "there" }, { cursor: 7, device: "there" })];
        answers((address, { method }) => method === "POST" ? json({ detail: "It failed." }, 500)
            : address.includes("/machines") ? json({ items: [], next: null })
            : json({ items, cursor: 7, scope: "all", more: false, ...now }));
        const told = [];
        const line = createLine({ session: () => session, isMine: () => true, tell: (event) => told.push(event) });
        await line.poke();
        const types = told.map(({ type }) => type);
        return [types, told.at(-1).detail, (await row(items[0].id)).cursor, (await waitingMarks()).length];
    """
    expected = [["line-started", "sent", "line-done"], "It failed.", 7, 1]
    assert run(script) == expected


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
