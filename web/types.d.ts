// Shapes shared by the page's modules, for `make check` only; nothing here is served.

type Text = string;
type Verdict = "pass" | "watch" | "fail" | "cannot_tell";

/** An entry exactly as CONTRACT.md section 4 has it. */
interface Entry {
  id: string;
  schema: number;
  kind: string;
  call: string | null;
  base: string[];
  made_at: string;
  device: string;
  author: string;
  body: Record<string, any>;
  cursor?: number;
  received_at?: string;
  seal?: string;
}

/** An entry as this phone holds it. */
interface Row {
  id: string;
  call: string | null;
  kind: string;
  machine: string | null;
  cursor: number | null;
  order: number;
  own: boolean;
  seen: number;
  entry: Entry;
}

/** A photo on this phone until the server confirms it: its bytes, and the entry that announces it. */
interface Photo { sha256: string; media_type: string; bytes: ArrayBuffer; entry: string; trouble?: string }

/** A clock a technician started: a name, when it began and when it is due, in milliseconds. */
interface Timer { id: string; call: string; what: string; began: number; due: number; told?: boolean }

interface Session {
  token: string;
  device: string;
  person: string;
  role: string;
  sites: string[];
  valid_until: string;
}

interface Point {
  name: string;
  title: string;
  kind: "legs" | "value" | "word" | "chain" | "absence";
  keys: string[];
  units: string[];
  /** In which unit a winding's temperature is asked beside it. */
  warmth?: string;
  states: string[];
  words: string[];
  low: number;
  high: number;
  step: number;
  group: string;
  caution: string | null;
  checks: string[];
}

interface Limit { verdict: Verdict; above?: number; below?: number; unit: string; source: Record<string, any> }
interface Leg { leg: string; value: any; unit: string; deviation?: number; deviation_unit?: string; judged?: number; bound?: string; uncertainty?: number; verdict?: Verdict }

interface Finding {
  check: string;
  verdict: Verdict;
  value: any;
  unit: string;
  uncertainty: number | null;
  legs: Leg[];
  limits: Limit[];
  because: string;
  readings: string[];
  missing: string[];
  carries: boolean;
  round?: string;
  detail?: Record<string, any>;
}

interface Result {
  engine: { version: string; rules: string; digest: string };
  summary: { verdict: Verdict; fail: string[]; watch: string[]; cannot_tell: string[]; gates: Record<string, boolean> };
  rounds: { id?: string; label: string; findings: Finding[] }[];
  weighing?: { text: string; turned: string | null };
  causes: { cause: string; text: string; word: string; probability: number; for: { from: string; text: string }[]; against: { from: string; text: string }[] }[];
  next_test: { point: string; because: string; caution?: string } | null;
  gates: Record<string, any>;
  clocks: { what: string; due: string; because: string }[];
  open_items: any[];
  comparison: any[];
}

/** One key of the pad's form: a leg, the value, or a measured condition beside it. */
interface Field { key: string; unit: string; optional?: boolean; condition?: boolean }

/** What is being typed, kept through a reload. */
interface Draft {
  call: string;
  label: string;
  point: string;
  base: string | null;
  active: string;
  /** The machine beside that this is read on, to compare with. */
  neighbour?: { tag: string; like: boolean };
  /** The one leg that is asked, in a reading taken leg by leg, and when its start was. */
  only?: string;
  at?: string;
  /** The leg that was left by itself for this one. */
  left?: string;
  texts: Record<string, string>;
  unit: string;
  warmth?: string;
  state: string;
  meter: string;
  choices: Record<string, string | boolean>;
}
