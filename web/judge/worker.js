// The engine on the phone: the server's own Python files, run by MicroPython. Text in, text out, never objects.
import { loadMicroPython } from "../vendor/micropython/micropython.mjs";

const HEAP = 24 * 1024 * 1024;
const DOORS = ["describe", "open", "add", "look", "judge"];
const CALL = "from engine import entry\nanswer = getattr(entry, door)(*[text for text in (first, second) if text is not None])";

async function boot() {
  const [python, index, sources] = await Promise.all([startPython(), fetched("/engine/index.json"), fetched("/engine/sources.txt")]);
  const { checks, digest } = JSON.parse(index);
  writeSources(python.FS, sources);
  python.globals.set("names", JSON.stringify(checks));
  python.globals.set("digest", digest);
  python.runPython("import sys, json\nsys.path.insert(0, '/')\nfrom engine import entry\nentry.load(json.loads(names), digest)");
  return { python, digest };
}

function startPython() {
  return loadMicroPython({ url: new URL("../vendor/micropython/micropython.wasm", import.meta.url).href, heapsize: HEAP, pystack: 32 * 1024 });
}

async function fetched(path) {
  const answer = await fetch(path);
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  return answer.text();
}

/** Name, text, name, text…, each ended by a zero: the form the engine's digest is made of. */
function writeSources(files, sources) {
  const parts = sources.split("\0");
  for (let i = 0; i + 1 < parts.length; i += 2) writeSource(files, "/engine/" + parts[i], parts[i + 1]);
}

function writeSource(files, path, text) {
  const parts = path.split("/").slice(1, -1);
  parts.forEach((_, i) => {
    const folder = "/" + parts.slice(0, i + 1).join("/");
    if (!files.analyzePath(folder).exists) files.mkdir(folder);
  });
  files.writeFile(path, text);
}

function answer(python, door, texts) {
  if (door === "health") return "well";
  if (!DOORS.includes(door)) throw new Error(`The engine has no door ${door}.`);
  const { globals } = python;
  globals.set("door", door);
  globals.set("first", texts[0] ?? null);
  globals.set("second", texts[1] ?? null);
  python.runPython(CALL);
  return globals.get("answer");
}

const started = boot();
started.then(
  ({ digest }) => postMessage({ id: 0, text: digest }),
  (error) => postMessage({ id: 0, error: String(error?.message ?? error) }),
);

addEventListener("message", async ({ data }) => {
  try {
    const { python } = await started;
    postMessage({ id: data.id, text: answer(python, data.door, data.texts) });
  } catch (error) {
    postMessage({ id: data.id, error: String(error?.message ?? error) });
  }
});
