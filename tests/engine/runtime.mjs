// Runs the engine's own files on MicroPython: node runtime.mjs MICROPYTHON.mjs ENGINE_FOLDER DIGEST < requests > answers.
// Requests and answers are JSON lists: [door, argument, …] each, answered by the door's text.
import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [runtime, folder, digest] = process.argv.slice(2);
const { loadMicroPython } = await import(pathToFileURL(runtime).href);
const python = await loadMicroPython({ heapsize: 32 * 1024 * 1024 });
const checks = [];

function copy(from, to) {
  python.FS.mkdir(to);
  for (const name of fs.readdirSync(from).sort()) {
    const source = path.join(from, name);
    if (fs.statSync(source).isDirectory()) {
      if (name !== "__pycache__") copy(source, `${to}/${name}`);
    } else if (name.endsWith(".py")) {
      python.FS.writeFile(`${to}/${name}`, fs.readFileSync(source));
      if (to === "/engine/checks" && name !== "__init__.py") checks.push(name.slice(0, -3));
    }
  }
}

copy(folder, "/engine");
globalThis.box = { checks: JSON.stringify(checks), digest, arguments: "", answer: "" };
python.runPython(`
import sys, json, js
sys.path.append("/")
import engine.entry as entry
entry.load(json.loads(js.box.checks), js.box.digest)
`);
const answers = [];
const seconds = [];
for (const [door, ...given] of JSON.parse(fs.readFileSync(0, "utf8"))) {
  globalThis.box.arguments = JSON.stringify(given);
  const started = performance.now();
  python.runPython(`js.box.answer = entry.${door}(*json.loads(js.box.arguments))`);
  seconds.push((performance.now() - started) / 1000);
  answers.push(globalThis.box.answer);
}
process.stdout.write(JSON.stringify({ answers, seconds }));
