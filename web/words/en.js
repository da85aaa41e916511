// Buttons, labels and short sentences of the page. What the engine says comes from the engine.

export default {
  name: "Rackside",
  back: "Back",
  verdict: { pass: "pass", watch: "watch", fail: "fail", cannot_tell: "cannot tell" },
  state: { isolated: "Locked out", stopped: "Stopped, live", starting: "Starting", running: "Running" },
  shortState: { isolated: "Locked", stopped: "Stopped", running: "Running", starting: "Starting" },
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
    winding_temperature: "Winding", lead_zero: "Probes shorted read", at_30s: "At 30 s", since_start: "Since start, s", duration: "Start took, s",
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
  keys: { ">": "greater than", OL: "OL, over limit", "±": "plus or minus", clear: "clear this field" },
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
    photos: (n) => `${count(n, "photo")} kept, not yet sent`,
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
    newSite: "A site that is not here", newMachine: "A machine that is not here",
  },
  call: {
    tabs: { measure: "Job", signs: "Seen", findings: "Findings", close: "Hand in" },
    back: "Calls", returned: "The office sent this back",
    plate: "Plate", all: "Show every point", fewer: "Only points that are judged", notTaken: "not taken",
    unjudged: "read", next: "Next:", or: "or", look: "Look:",
  },
  plate: {
    model: ["Model", ""], rated_voltage: ["Volts", "V"], rated_load_current: ["Rated load", "A"], max_continuous_current: ["Max continuous", "A"],
    locked_rotor_current: ["Locked rotor", "A"], refrigerant: ["Refrigerant", ""], type: ["Type", ""], start: ["Start", ""], serial: ["Serial", ""],
  },
  entry: {
    nextField: "Next", keep: "Keep", correct: "Keep the correction", notTaken: "Not taken, because…", unit: "Unit", meter: "Meter", noMeter: "not named", addMeter: "add a meter…", undo: "Undo",
    state: "Machine", last: (at) => `Last visit ${at}`, allowed: "Allowed", waiting: "Type a leg to see where it stands.",
    kept: (at) => `Kept on this phone at ${at}`, notSent: "not yet sent", again: "Correct it", repeat: "Take again", round: "The round", next: (title) => `Next: ${title}`,
    corrects: "Correcting. The first reading stays in the log.", noVerdict: "Kept. No published limit applies to this point alone.",
    gone: "Readings are kept, verdicts are unavailable on this phone.", back: "Delete last digit", other: "Another reason", keepReason: "Keep the reason",
    caution: "Before this reading", acknowledge: "Understood, go on",
    picked: "chosen",
  },
  findings: {
    none: "Nothing judged yet. Take a reading and its verdict stands here.", causes: "What it points to", word: { likely: "likely", possible: "possible" }, notShown: (n) => `Not shown by what was read: ${n}`, thisOne: "This is the cause", for: "Speaks for it", against: "Speaks against it", gates: "Gates", needs: "still needed", blocks: "shut by",
  },
  signs: { where: "Where you look", place: { panel: "Panel", eyes: "Machine", oil: "Oil", ears: "Hear, touch", log: "Log, told" }, hint: "Tap what you saw, heard or read. Tap again for “looked, not there”.", yes: "yes", no: "not there", unasked: "not looked" },
  close: {
    decision: "Decision",
    decisions: { restart: "Restart", repair: "Repair", run_under_watch: "Run under watch", condemn: "Condemn", no_fault_found: "No fault found" },
    cause: "Cause, in your view", reason: "Why, in a sentence", keep: "Keep the decision", note: "Note to the office", submit: "Hand in to the office",
    submitted: "Handed in. It goes to the office as soon as there is a line.", state: "This call is", pick: "choose",
    kept: "Decided:", watch: "Watch it for", days: (n) => (n === "1" ? "1 day" : `${n} days`), watchedUntil: (at) => `watched until ${at}`, approver: "Who in the office agreed",
    signature: "Signature", signatureWhy: "Whoever takes the machine back signs for what was said and shown, not for its health.",
    who: "Name", role: "Who that is", roles: ["night staff", "manager", "technician"], ink: "Sign here with a finger", wipe: "Wipe", keepSignature: "Keep the signature",
    signedBy: (who, at) => `Signed by ${who}, ${at}.`,
  },
  job: {
    map: "The whole job", first: "First: what opened?", firstWhy: "Write it down before anybody resets it. A reset wipes it out.",
    next: (step) => `On to: ${step}`, count: (n, of) => `${n} of ${of}`, stand: { open: "", begun: "begun", done: "done", skipped: "left out" },
    openItems: "Still open", closeIt: "Close it", close: { jumper: "It is off", lead: "It is back on", rolled_leads: "They are back", valve: "It is back" },
    skip: "Leave this step out, because…", skipped: (reason) => `Left out: ${reason}.`, takeUp: "Take it up again",
    moot: (n) => `${n} not asked, and why`,
    lane: {
      isolate: (by) => `${by}: isolate and test insulation before any reset.`,
      live: (by) => `${by}: supply, control string and contactor first, live. Isolating would erase which contact was open.`,
    },
    laneBy: { burnt_smell: "A burnt smell", breaker: "The breaker opened", fuse: "A fuse opened", other: "No breaker or fuse opened", unknown: "No breaker or fuse is known to have opened" },
    step: {
      alarm: "Alarm as found", machine: "The machine", look: "Look, listen, touch", supply: "Supply", control: "Control string and contactor", make_safe: "Make safe",
      isolated: "Tests locked out", start: "One witnessed start", running: "Running round", oil: "Oil side", heat: "Pressures and heat", repair: "Repair and parts",
      as_left: "As left beside as found", gates: "Gates", decision: "Decision and watch", hand_over: "Hand over",
    },
    hint: {
      alarm: "Which device opened, in which order, and when. Take its picture before anybody resets it.",
      supply: "Live. Read the supply before you isolate.", control: "Live, and as you found it.",
      make_safe: "Your employer's lockout rule comes first. This keeps what you did and when.",
      isolated: "Locked out, tried and tested. Crankcase above 0 psig.",
      gates: "Advice with a memory. Nothing here stops you making it safe or leaving.",
      as_left: "Tap a row to read it again as left.",
    },
    alarm: {
      reported: "They said:", before: "Nothing is written down yet.", opened: "Write what opened", another: "Another device", reset: "Somebody reset it",
      ran: "the motor ran", stood: "the motor did not run", noTime: "time not known",
    },
    machine: {
      unknown: "not known", enter: "Enter or correct", right: "The plate says the same", checked: "Checked against the plate", last: "Last read on it", noHistory: "No earlier visit is kept on this phone.",
      unconfirmed: "Not yet confirmed by the office. What the plate says counts at once.",
    },
    safe: {
      step: { staged: "Out of the controller's staging, alarms in test, customer told", locked: "Its own disconnect open, locked and tagged", tried: "Start tried: nothing moved", waited: "Capacitors and drive bus waited for and measured" },
      toDo: "to do", separate: "Control power, heater, head fan, regulator, a second starter and a drive's bus are fed apart: test each before you touch it.",
      valves: "Where every service valve stands", valvesLike: "suction open, discharge open, oil line open", valvesKeep: "Valves are as written", valvesAgain: "Write it again", valveMoved: "I moved a valve",
    },
    start: {
      how: "Three legs in one start when your meter can. Else one leg a start, and the wait between starts runs on its own. Least volts in the same start.",
      now: "It was started just now", at: (time) => `started ${time}`,
    },
    repair: { write: "Write down", done: "Done so far", lines: "Parts, hours, travel", addLine: "Add a part or hours" },
    asLeft: { point: "Reading", unread: "not read" },
    gate: { more: (n) => `${n} more`, met: (n) => `${n} met, by what`, pass: "Pass…", against: "Done all the same…" },
  },
  moot: {
    no_drive: "this machine has no drive", no_co2: "not a CO₂ machine", one_winding: "not a part-winding start", no_oil_pump: "it has no oil pump",
    no_pump_down: "never on this kind of machine", no_injection: "no liquid injection on its plate", no_steps: "it has no capacity steps", never_ran: "the motor did not turn",
    no_oil_trip: "the oil control did not trip", insulation_read: "insulation was read, which says more",
  },
  sheet: {
    title: { event: "What happened", action: "What was done", line: "Part, hours, travel", override: "Passing a gate", meter: "A meter", site: "A new site", machine: "A new machine", plate: "The plate", signature: "Signature" },
    why: {
      override: "Your name and your reason stand in every report from here on.",
      machine: "What you leave blank is not known, and what depends on it will say so.",
      meter: "What its data sheet says decides how sure a verdict can be.",
    },
    keep: "Keep", optional: "if known", missing: (names) => `Missing, or not a number: ${names.join(", ")}.`,
    field: {
      device: "Which device?", what: "What?", at: "When", motor_ran: "Had the motor been running?", by: "Who", text: "As printed or shown", kind: "Which?", before: "Before", after: "After",
      quantity: "How many", reason: "Why", name: "Name", serial: "Serial", resolution: "Smallest step it shows", percent: "Accuracy, % of reading", counts: "Accuracy, plus counts",
      address: "Address", nominal_voltage: "Supply", grounding: "How is it grounded?", contact: "Contact", tag: "Tag on the machine", rack: "Rack", who: "Name", role: "Who that is",
      application: "Temperature of the rack", coil_voltage: "Coil", overload_setting: "Overload dial by the drawing", rated_frequency: "Frequency", winding_resistance_25c: "Winding at 25 °C",
    },
    fieldOf: { action: { what: "On what? Valve, lead, part, setting" }, line: { what: "What was it?" } },
    suggest: { who: ["night staff", "not known", "me"], role: ["night staff", "manager"] },
    option: {
      trip: "tripped", alarm: "alarm", reset: "was reset", start: "started", stop: "stopped", true: "yes", false: "no", part: "part", labour: "hours", travel: "travel", quote: "to quote",
      multimeter: "multimeter", clamp: "clamp", megohmmeter: "insulation tester", ohmmeter: "milliohm meter", gauge: "gauges", thermometer: "thermometer",
      low: "low", medium: "medium", high: "high", unknown: "not known", "across-the-line": "across the line", "part-winding": "part winding", "wye-delta": "wye-delta", soft: "soft starter", drive: "drive",
      "semi-hermetic-reciprocating": "semi-hermetic, pistons", "semi-hermetic-screw": "semi-hermetic, screw", "open-reciprocating": "open, pistons", "open-screw": "open, screw", "welded-scroll": "welded, scroll", "welded-reciprocating": "welded, pistons",
      "grounded-wye": "grounded wye", "corner-grounded-delta": "corner-grounded delta", "high-leg-delta": "high-leg delta", ungrounded: "not grounded", "impedance-grounded": "through an impedance",
    },
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
    write: (n) => (n ? `Write ${count(n, "entry", "entries")} to a file` : "Nothing waits here"), in: "A file of another phone", inWhy: "Its entries keep their author and their phone. Yours go out from here; those of another person wait for that person's sign-in, or for the office.",
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
