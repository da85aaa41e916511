// Buttons, labels and short sentences of the page. What the engine says comes from the engine.

export default {
  name: "Rackside",
  back: "Back",
  verdict: { pass: "pass", watch: "watch", fail: "fail", cannot_tell: "cannot tell" },
  state: { isolated: "Locked out", stopped: "Stopped, live", starting: "Starting", running: "Running" },
  label: { as_found: "As found", interim: "Interim", as_left: "As left" },
  group: {
    look: "Look, listen, touch",
    supply: "Supply",
    control: "Control and overload",
    make_safe: "Make safe",
    isolated: "Locked out",
    start: "One witnessed start",
    running: "Running",
    oil: "Oil",
    heat: "Pressures and heat",
    repair: "Repair",
  },
  unit: {
    V: "V", mV: "mV", A: "A", mA: "mA", ohm: "Ω", mohm: "mΩ", kohm: "kΩ", Mohm: "MΩ", F: "°F", C: "°C", K: "K",
    uF: "µF", inHg_vac: "inHg vac", fraction: "of the glass", floz: "fl oz",
  },
  key: {
    value: "", known_source_before: "Known source, before", known_source_after: "Known source, after",
    winding_temperature: "Winding, °F", at_30s: "At 30 s", since_start: "Since start, s", duration: "Start took, s",
    test_voltage: "Test volts", "bank-1": "Bank 1", "bank-2": "Bank 2", "bank-3": "Bank 3",
  },
  choice: {
    leads: { title: "Motor leads", on: "on", off: "off" },
    same_start: { title: "All three in one start", true: "yes", false: "no" },
    capture: { title: "Meter caught it as", inrush: "inrush", min_max: "min/max", peak: "peak" },
    called: { title: "Being called", true: "yes", false: "no" },
    moment: { title: "Moment", pull_in: "pulling in", sealed: "sealed" },
    method: { title: "Measured", to_return: "to the return", across: "across each" },
    load: { title: "Load", full: "full", unloaded: "unloaded" },
    roll: { title: "Leads rolled", 0: "as wired", 1: "one place", 2: "two places" },
    probe: { title: "Probe", clamp: "clamp", insulated_clamp: "insulated", well: "well", infrared: "infrared" },
    where: { title: "Where", source: "source", disconnect: "disconnect", contactor: "contactor" },
  },
  callState: {
    open: "open", submitted: "sent to the office", returned: "sent back", watching: "being watched",
    accepted: "accepted", closed: "closed",
  },
  gate: { open: "open", shut: "not yet" },
  keys: { ">": "greater than", OL: "over limit", "±": "plus or minus", clear: "clear this field" },
  band: { between: (low, high) => `${low} to ${high}`, within: (high) => `within ±${high}`, upTo: (high) => `up to ${high}`, from: (low) => `from ${low}` },
  today: (time) => `today, ${time}`,

  signIn: {
    title: "Sign in once",
    why: "This phone gets its own key. After that it works without signal and asks again only to send.",
    name: "Your name", password: "Password", device: "Name of this phone", go: "Sign in", busy: "Asking the office…",
    noLine: "The office can't be reached. Sign in where there is signal; after that none is needed.",
  },
  ready: {
    yes: "Ready for no signal", no: "Not ready for no signal",
    title: "Without signal", heldAs: (at) => `as of ${at}`, never: "never read from the office yet",
    holds: (sites, machines) => `${count(sites, "site")}, ${count(machines, "machine")}`,
    engine: (vectors) => (vectors ? `engine ${vectors.passed} of ${vectors.of}` : "engine being proved"),
    need: {
      page: "The whole page is kept on this phone",
      engine: "The engine agrees with its worked examples here",
      register: "Sites, machines and their last visits are here",
      "sign-in": "You are signed in",
    },
    persisted: {
      "": "Not asked yet: it is asked with the first kept reading.",
      granted: "The browser promised not to clear what is kept here.",
      refused: "The browser may clear what is kept here when space is short. Put Rackside on the home screen, and send when you can.",
      unknown: "This browser does not say whether it keeps things. Put Rackside on the home screen, and send when you can.",
    },
    storage: "Keeping", clock: "Clocks", sending: "Sending", startedIn: (ms) => `The engine started in ${ms} ms.`,
    clockFine: "This phone and the office agree on the time.",
    clockOff: (seconds) => `This phone is ${duration(Math.abs(seconds))} ${seconds > 0 ? "ahead of" : "behind"} the office. Times are kept as this phone shows them.`,
    signOut: "Sign out", signOutKeeps: (n) => `${count(n, "entry", "entries")} of yours are not sent. They stay on this phone and go out when you sign in here again.`,
    left: (bytes) => `${Math.round(bytes / 1e6)} MB of space left.`, carry: "Carry by hand",
  },
  line: {
    allSent: "all sent", waiting: (n) => `${count(n, "entry", "entries")} kept, not yet sent`,
    others: (n) => `${n} of another sign-in wait for that person`,
    sendNow: "Send now", sending: "sending…", noLine: "no line to the office",
    password: "The office asks for your password before it takes more. Readings go on being kept.",
    trouble: (detail) => `Sending stopped: ${detail}`,
    last: (at) => `last in step at ${at}`,
  },
  stand: { kept: "kept on this phone", sent: "sent", refused: "refused by the office" },
  calls: {
    mine: "Yours", others: "Other open calls", done: "Handed in", none: "No open calls here.", open: "Open a call",
    refused: (n) => `${count(n, "entry", "entries")} refused by the office`,
  },
  newCall: {
    title: "Open a call", machine: "Which machine?", complaint: "What did they call about?",
    reported: "What was said (alarm text, how often, who reset it)", go: "Open the call", rack: (name) => `Rack ${name}`,
    none: "This phone holds no machines yet. It reads them when there is a line to the office.",
  },
  call: {
    tabs: { measure: "Measure", signs: "Seen", findings: "Findings", close: "Hand in" },
    back: "Calls", returned: "The office sent this back",
    plate: "Plate", all: "Show every point", fewer: "Only points that are judged", notTaken: "not taken",
    unjudged: "read", next: "Next:", or: "or", look: "Look:",
  },
  plate: {
    rated_voltage: ["Volts", "V"], rated_load_current: ["Rated load", "A"], max_continuous_current: ["Max continuous", "A"],
    locked_rotor_current: ["Locked rotor", "A"], refrigerant: ["Refrigerant", ""], type: ["Type", ""], start: ["Start", ""], serial: ["Serial", ""],
  },
  entry: {
    nextField: "Next", keep: "Keep", correct: "Keep the correction", notTaken: "Not taken, because…", unit: "Unit", meter: "Meter", noMeter: "not named",
    state: "Machine", last: (at) => `Last visit ${at}`, allowed: "Allowed", waiting: "Type a leg to see where it stands.",
    kept: (at) => `Kept on this phone at ${at}`, notSent: "not yet sent", again: "Correct it", repeat: "Take again", round: "The round", next: (title) => `Next: ${title}`,
    corrects: "Correcting. The first reading stays in the log.", noVerdict: "Kept. No published limit applies to this point alone.",
    gone: "Readings are kept, verdicts are unavailable on this phone.", back: "Delete last digit", other: "Another reason", keepReason: "Keep the reason",
    caution: "Before this reading", acknowledge: "Understood, go on",
    picked: "chosen",
  },
  findings: {
    none: "Nothing judged yet. Take a reading and its verdict stands here.", causes: "What it points to", word: { likely: "likely", possible: "possible" }, for: "for", against: "against", gates: "Gates", needs: "still needed", blocks: "shut by",
  },
  signs: { hint: "Tap what you saw, heard or read. Tap again for “looked, not there”.", yes: "yes", no: "not there", unasked: "not looked" },
  close: {
    decision: "Decision",
    decisions: { restart: "Restart", repair: "Repair", run_under_watch: "Run under watch", condemn: "Condemn", no_fault_found: "No fault found" },
    cause: "Cause, in your view", reason: "Why, in a sentence", keep: "Keep the decision", note: "Note to the office", submit: "Hand in to the office",
    submitted: "Handed in. It goes to the office as soon as there is a line.", state: "This call is", pick: "choose",
  },
  refused: {
    title: "Refused by the office", why: "These are kept on this phone and go no further until something changes.", again: "Send again", remedy: "What to do",
  },
  photos: {
    title: "Photos", take: "Take a photo", none: "No photos yet.", fetch: "Get it from the office",
    hint: "Shrunk on this phone, without its place and camera data, and sent after its entry.",
    shows: { alarm: "Alarm", plate: "Plate", panel: "Panel", oil: "Oil", part: "Part", other: "Other" },
    standing: {
      kept: "kept on this phone, not yet sent", office: "at the office", coming: "coming…", refused: "refused by the office",
      "not-yet": "The phone that took it has not sent it yet.", "no-line": "No line to the office. It is kept there.",
    },
    trouble: { busy: "Shrinking and keeping…", unreadable: "This picture can't be read here. Nothing was kept; take it again." },
  },
  clocks: {
    title: "Clocks", more: "Start a clock by hand", due: (at) => `due at ${at}`, wasDue: (at) => `was due at ${at}`, over: (text) => `${text} over`, done: "time is up",
    awake: "The screen stays on while it runs.", mayLock: "This browser may lock the screen; the time goes on all the same.",
    heard: "Sound and vibration only while this page is in front.", putAway: (what) => `Put away: ${what}`,
    what: { insulation_minute: "Insulation minute", oil_timing: "Oil timing", next_start_allowed: "Wait between starts", cooling: "Cooling" },
    start: {
      insulation_minute: (s) => `Start ${s} s`, oil_timing: (s) => `Start ${s} s oil timing`,
      next_start_allowed: (s) => `Start ${s / 60} min wait`, cooling: (s) => `Start ${s / 60} min cooling`,
    },
  },
  code: {
    title: "Label code", label: "The code on the machine's label", none: "No machine here has this code. It may belong to a site this phone does not hold.",
    fault: { short: "A code has at least six signs.", mistyped: "A code has no O, 0, I or 1: look once more." },
  },
  machine: { calls: "Calls", visits: "Last visits", gone: "This machine is not on this phone" },
  carry: {
    title: "Carry by hand", out: "What is not sent, as a file", outWhy: "Another phone or the office can take it in. Nothing is removed here: it still goes out when there is a line.",
    write: (n) => `Write ${count(n, "entry", "entries")} to a file`, in: "A file of another phone", inWhy: "Its entries keep their author and their phone. Yours go out from here; those of another person wait for that person's sign-in, or for the office.",
    take: "Take a file in", written: (n, photos) => `${count(n, "entry", "entries")} and ${count(photos, "photo")} written.`,
    taken: (n, known, by) => `${count(n, "entry", "entries")}${by ? ` from ${by}` : ""} taken in${known ? `, ${known} were here already` : ""}.`,
    fault: {
      unreadable: "This file can't be read. Nothing was taken in; have it written again.", "other-file": "This is not a file of unsent entries. Nothing was taken in.",
      newer: "A newer version wrote this file. Take over the new version here first.", "not-kept": "The phone could not keep it. Nothing was taken in.",
    },
  },
  share: {
    go: "Share as text", head: (tag, site) => `Compressor ${tag}${site ? `, ${site}` : ""}`, causes: "What it points to:", nothing: "Nothing was judged yet.", byHand: "Copy it from here:",
    caution: "What was measured, and the rule it was compared with. The employer's safety programme, local code and the manufacturer come first.",
  },
  install: {
    title: "Put it on the home screen", why: "There it opens without signal, and the browser is less likely to clear what you keep. Do it before work starts: the home screen has a store of its own.",
    go: "Put it there", later: "Not now", byHand: "Tap the browser's share button, then “Add to Home Screen”, and open it from there.",
  },
  settings: {
    title: "Settings", language: "Language",
    theme: { title: "Light", dark: "Dark room", sun: "Sunlight" }, text: { title: "Letters", usual: "Usual", large: "Large", largest: "Largest" },
    units: { title: "Units offered first", us: "US (°F, psi)", si: "SI (°C, kPa)", note: "Only which unit a field offers first. What was read stays in the unit it was read in." },
  },
  diagnose: {
    title: "How this phone stands", why: "For the office, when something seems wrong. Works without signal.",
    engine: "Engine", page: "Page", store: "Store", line: "Line to the office", state: "State", started: "Started in", vectors: "Worked examples", version: "Version", digest: "Digest",
    states: { starting: "starting", ready: "ready", restarting: "restarting", gone: "gone" }, ms: (n) => `${n} ms`, of: (passed, all) => `${passed} of ${all} agree`,
    offline: "Works without signal", language: "Language", browser: "Browser", persisted: "Promised not to be cleared", left: "Space left", megabytes: (bytes) => `${Math.round(bytes / 1e6)} MB`,
    answers: { "": "not asked yet", granted: "yes", refused: "no", unknown: "not told" },
    counts: { entries: "Entries", outbox: "Not sent", refused: "Refused", photos: "Photos not sent", machines: "Machines with history" },
    trouble: "Trouble", signedIn: "Signed in", lastLine: "Last in step", lastRead: "Last read", lineTrouble: "Trouble", cursor: "Read up to",
    yes: "yes", no: "no", none: "none", never: "never", unknown: "not told", notHeld: "not held yet",
  },
  insecure: {
    title: "This address can't work without signal",
    text: "The page came over plain http, so the browser will neither keep it nor run it offline. Ask the office for the https address and open that.",
  },
  update: { text: "A new version is ready.", take: "Take it over", later: "Keep or clear the digits you are typing, then take it over." },
  trouble: {
    blocked: "Another tab of Rackside is open with an older version. Close it.",
    replaced: "A newer Rackside is open in another tab. Reload this one.",
    closed: "The browser closed this phone's store. It is opened again at the next entry.",
    full: "This phone is out of space. What the office can send again was dropped; nothing of yours was.",
    failed: (what) => `Not kept: ${what}. The digits are still here; try once more.`,
  },
};

function count(n, one, many = one + "s") {
  return `${n} ${n === 1 ? one : many}`;
}

function duration(seconds) {
  return seconds < 7200 ? `${Math.round(seconds / 60)} min` : `${Math.round(seconds / 3600)} h`;
}
