// Everything that can happen to the page, as functions (state, event) → state. Pure: no window, no store, no network.
import { REGISTER_KINDS, registerOf } from "./register.js";
import { AROUND, FIRST_AROUND } from "./around.js";
import { nextField, typed } from "./draft.js";
import { isMine } from "./entries.js";
import { movedOn } from "./next-leg.js";
import { withUnits } from "./settings.js";

export const FIRST_STATE = {
  route: /** @type {any} */ ({ name: "start" }),
  now: 0,
  secure: true,
  session: /** @type {Session | null} */ (null),
  signIn: { busy: false, trouble: "" },
  engine: { state: "starting", words: /** @type {any} */ (null), vectors: /** @type {any} */ (null), startedIn: 0 },
  line: { busy: false, reason: "", detail: "", ahead: /** @type {number | null} */ (null), at: "" },
  page: { held: false, update: false, cutShort: false },
  storage: { persisted: "", trouble: "", lost: /** @type {{waiting: number, at: number} | null} */ (null) },
  /** What still has to be sent; null until the phone's own list of it is read. */
  waiting: /** @type {Set<string> | null} */ (null),
  toSend: 0,
  othersWaiting: 0,
  refused: /** @type {any[]} */ ([]),
  pulledAt: "",
  rows: /** @type {Row[]} */ ([]),
  register: { sites: [], machines: [], meters: [], calls: [] },
  newCall: { machine: "", complaint: "", reported: "" },
  call: /** @type {any} */ (null),
  draft: /** @type {Draft | null} */ (null),
  sure: /** @type {Draft | null} */ (null),
  look: /** @type {Finding[]} */ ([]),
  kept: /** @type {any} */ (null),
  skipping: false,
  closing: { decision: "", cause: "", reason: "", note: "", watch: "", approver: "", handing: false },
  sheet: /** @type {any} */ (null),
  skippingStep: "",
  acknowledged: /** @type {Set<string>} */ (new Set()),
  shown: /** @type {Set<string>} */ (new Set()),
  ...FIRST_AROUND,
};

/** @typedef {typeof FIRST_STATE} State */

function registered(state, rows) {
  const register = registerOf(rows, state.now);
  const call = state.call && { ...state.call, ...register.calls.find((one) => one.id === state.call.id), plate: register.machines.find((one) => one.id === state.call.machine) ?? state.call.plate };
  return { ...state, rows, register, call };
}

/** @type {Record<string, (state: State, event: any) => State>} */
const HAPPENINGS = {
  woke: (state, { meta, rows, held, refused, secure, settings, now, controlled, lost }) =>
    registered(
      {
        ...state,
        secure,
        settings,
        photosWaiting: held.photos,
        photosLost: meta.photos_lost ?? [],
        toSend: held.outbox,
        now,
        refused,
        page: { ...state.page, held: controlled },
        session: meta.session ?? null,
        pulledAt: meta.pulled_at ?? "",
        acknowledged: new Set(meta.acknowledged ?? []),
        storage: { ...state.storage, persisted: meta.persisted ?? "", lost },
        engine: { ...state.engine, words: withUnits(state.engine.words ?? meta.words ?? null, settings.units) },
      },
      rows,
    ),
  went: (state, { route }) => ({ ...state, route, kept: null, skipping: false, look: [], draft: null, sheet: null, skippingStep: "", caption: null, shared: null }),
  ...AROUND,
  "sign-in-began": (state) => ({ ...state, signIn: { busy: true, trouble: "" } }),
  "sign-in-failed": (state, { trouble }) => ({ ...state, signIn: { busy: false, trouble } }),
  "signed-in": (state, { session }) => ({ ...state, session, signIn: { busy: false, trouble: "" }, line: { ...state.line, reason: "" } }),

  "signed-out": (state) => ({ ...state, session: null, line: FIRST_STATE.line, call: null, draft: null }),

  "engine-state": (state, { value }) => ({ ...state, engine: { ...state.engine, state: value } }),
  "engine-described": (state, { words }) => ({ ...state, engine: { ...state.engine, words: withUnits(words, state.settings.units) } }),
  "engine-timed": (state, { startedIn }) => ({ ...state, engine: { ...state.engine, startedIn } }),
  "engine-proved": (state, { vectors }) => ({ ...state, engine: { ...state.engine, vectors } }),
  "cut-short": (state) => ({ ...state, page: { ...state.page, cutShort: true } }),
  "page-held": (state, { held }) => ({ ...state, page: { ...state.page, held } }),
  "update-waits": (state) => ({ ...state, page: { ...state.page, update: true } }),
  "storage-answer": (state, { persisted }) => ({ ...state, storage: { ...state.storage, persisted } }),
  "storage-trouble": (state, { trouble }) => ({ ...state, storage: troubled(state.storage, trouble) }),

  "loss-seen": (state) => ({ ...state, storage: { ...state.storage, lost: null } }),

  "line-started": (state) => ({ ...state, line: { ...state.line, busy: true } }),
  "line-done": (state, { ahead, at, reason, detail }) => ({ ...state, line: { busy: false, reason, detail, ahead, at } }),
  "line-failed": (state, { reason, detail }) => ({ ...state, line: { ...state.line, busy: false, reason, detail } }),
  "marks-read": (state, { marks }) => ({ ...state, ...waitingBy(marks, state.session) }),
  "log-read": (state, { rows, marks, photosWaiting, refused, pulledAt, now }) =>
    registered({ ...state, ...waitingBy(marks, state.session), photosWaiting, refused, pulledAt, now, storage: opened(state.storage) }, rows),

  "new-call": (state, { change }) => ({ ...state, newCall: { ...state.newCall, ...change } }),
  "closing-changed": (state, { change }) => ({ ...state, closing: { ...state.closing, ...change } }),

  "sheet-opened": (state, { sheet }) => ({ ...state, sheet: { ...sheet, tried: false } }),
  "sheet-changed": (state, { change }) => ({ ...state, sheet: state.sheet && { ...state.sheet, values: { ...state.sheet.values, ...change } } }),
  "sheet-tried": (state) => ({ ...state, sheet: { ...state.sheet, tried: true } }),
  "step-skip-asked": (state, { step }) => ({ ...state, skippingStep: step }),

  "call-opened": (state, { call }) => ({ ...state, call, draft: null, kept: null, closing: FIRST_STATE.closing }),
  "call-rows": (state, { rows }) => ({ ...state, call: state.call && { ...state.call, rows } }),
  judging: (state) => ({ ...state, call: state.call && { ...state.call, judging: state.call.judging + 1 } }),
  judged: (state, { answer, now }) => ({ ...state, clock: { ...state.clock, now }, call: state.call && { ...state.call, ...resultIn(answer), judging: Math.max(0, state.call.judging - 1) } }),

  "draft-opened": (state, { draft }) => ({ ...state, draft, kept: null, look: [], skipping: false }),
  typed: (state, { key }) => ({ ...state, draft: state.draft && typed(state.draft, key) }),
  "field-chosen": (state, { key }) => ({ ...state, draft: state.draft && { ...state.draft, active: key, left: "" } }),
  "next-field": (state, { point }) => ({ ...state, draft: state.draft && { ...state.draft, active: nextField(point, state.draft), left: "" } }),
  "leg-sure": (state, { draft }) => ({ ...state, sure: draft }),
  "moved-on": (state, { point }) => ({ ...state, draft: state.draft && movedOn(point, state.draft) }),
  "draft-changed": (state, { change }) => ({ ...state, draft: state.draft && { ...state.draft, ...change } }),
  looked: (state, { findings }) => ({ ...state, look: findings }),
  acknowledged: (state, { step }) => ({ ...state, acknowledged: new Set([...state.acknowledged, step]) }),
  "reading-kept": (state, { id, at, point }) => ({ ...state, kept: { id, at, point }, draft: null, skipping: false }),
  "skip-asked": (state, { asked }) => ({ ...state, skipping: asked }),
  folded: (state, { what }) => ({ ...state, shown: toggled(state.shown, what) }),

  "entries-kept": (state, { rows }) => keptRows({ ...state, storage: keptAgain(state.storage) }, rows),
};

/** A result and the entries it is of; without a result the last one stands. */
const resultIn = (answer) => (answer?.result ? { result: answer.result, upto: answer.upto } : {});

/** That space runs out is less than that something was not kept, or that another page has the store. */
const troubled = (storage, trouble) => (trouble === "full" && storage.trouble && storage.trouble !== "closed" ? storage : { ...storage, trouble });

/** A store that could be read is open again. */
const opened = (storage) => (storage.trouble === "closed" ? { ...storage, trouble: "" } : storage);

/** What could not be kept is over once something could; the phone is as full as it was until the reserve is held again. */
function keptAgain(storage) {
  if (storage.trouble === "noRoom") return { ...storage, trouble: "full" };
  return storage.trouble.endsWith("Error") ? { ...storage, trouble: "" } : storage;
}

/** What still has to be sent: all of it, and how much of it this sign-in sends or another one on this phone left. */
function waitingBy(marks, session) {
  const others = marks.filter((mark) => !isMine(mark, session));
  return { waiting: new Set(marks.map((mark) => mark.id)), toSend: marks.length - others.length, othersWaiting: others.length };
}

function toggled(set, what) {
  const next = new Set(set);
  if (!next.delete(what)) next.add(what);
  return next;
}

function keptRows(state, rows) {
  const missing = (held) => rows.filter((row) => !held.some((one) => one.id === row.id));
  const listed = missing(state.rows).filter((row) => REGISTER_KINDS.includes(row.kind));
  const ofCall = missing(state.call?.rows ?? []).filter((row) => row.call === state.call?.id);
  const next = {
    ...state,
    waiting: state.waiting && new Set([...state.waiting, ...rows.map((row) => row.id)]),
    toSend: state.toSend + rows.length,
    photosWaiting: state.photosWaiting + rows.filter((row) => row.entry.body.sha256).length,
    call: state.call && { ...state.call, rows: [...state.call.rows, ...ofCall] },
  };
  return listed.length ? registered(next, [...state.rows, ...listed]) : next;
}

/** @param {State} state */
export function reduce(state, event) {
  const happen = HAPPENINGS[event.type];
  if (!happen) throw new Error(`Nothing is known of ${event.type}.`);
  return happen(state, event);
}

