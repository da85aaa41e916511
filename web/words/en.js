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
    theme: { dark: "Dark room", sun: "Sunlight" }, look: "Screen",
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
