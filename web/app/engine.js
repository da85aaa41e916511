// The engine of this page: started, asked what it knows, and put to its own worked examples once.
import { Judge } from "../judge/client.js";
import { createLatest } from "../judge/latest.js";
import { vectorsOf } from "../state/vectors.js";
import { writeMeta } from "../storage/meta.js";
import { ask } from "../sync/http.js";

export async function startEngine(page) {
  const { store } = page;
  const began = performance.now();
  page.judge = new Judge({
    spawn: () => new Worker("/judge/worker.js", { type: "module" }),
    onState: (value) => store.dispatch({ type: "engine-state", value }),
  });
  page.look = createLatest(page.judge.look, (answer) => store.dispatch({ type: "looked", findings: answer.findings ?? [] }));
  try {
    await page.judge.start();
    const words = await page.judge.describe(document.documentElement.lang);
    store.dispatch({ type: "engine-described", words, startedIn: Math.round(performance.now() - began) });
  } catch (error) {
    console.error(error);
    return speakWithout(store);
  }
  writeMeta("words", store.state.engine.words);
  prove(page);
}

/** No engine on this phone: the points and words still come, from the office, so that readings can be kept. */
async function speakWithout(store) {
  if (store.state.engine.words) return;
  const words = await ask("/vocabulary").catch(() => null);
  if (!words) return;
  store.dispatch({ type: "engine-described", words, startedIn: 0 });
  writeMeta("words", words);
}

/** Judge every check's worked example on this phone, when nothing else is asked of it. */
async function prove({ store, judge }) {
  const vectors = vectorsOf(store.state.engine.words);
  let passed = 0;
  for (const vector of vectors) {
    const result = await judge.judge(vector.case).catch(() => null);
    if (result && vector.agrees(result)) passed += 1;
  }
  store.dispatch({ type: "engine-proved", vectors: { passed, of: vectors.length } });
}
