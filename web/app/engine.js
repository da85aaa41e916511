// The engine of this page: started, asked what it knows, and put to its own worked examples once.
import { Judge } from "../judge/client.js";
import { createLatest } from "../judge/latest.js";
import { vectorsOf } from "../state/vectors.js";
import { jot, readMeta } from "../storage/meta.js";
import { ask } from "../sync/http.js";
import { language } from "../words/index.js";

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
    await learnWords(page);
  } catch (error) {
    console.error(error);
    return speakWithout(store);
  }
  store.dispatch({ type: "engine-timed", startedIn: Math.round(performance.now() - began) });
  prove(page);
}

/** The engine is asked for its words once; another start of the same engine in the same language has the same. */
async function learnWords({ store, judge }) {
  const known = await readMeta("words");
  if (known?.engine.digest === judge.digest && known.language === language) return;
  const words = { ...(await judge.describe(language)), language };
  store.dispatch({ type: "engine-described", words });
  jot("words", words);
}

/** No engine on this phone: the points and words still come, from the office, so that readings can be kept. */
async function speakWithout(store) {
  if (store.state.engine.words) return;
  const words = await ask("/vocabulary").catch(() => null);
  if (!words) return;
  store.dispatch({ type: "engine-described", words });
  jot("words", words);
}

/** Judge every check's worked example on this phone: once for an engine and a browser, when nothing else is asked. */
async function prove({ store, judge }) {
  const engine = `${judge.digest} ${navigator.userAgent}`;
  const known = await readMeta("proved");
  const vectors = known?.engine === engine ? known.vectors : await judgeExamples(store.state.engine.words, judge);
  store.dispatch({ type: "engine-proved", vectors });
  if (vectors.passed === vectors.of) jot("proved", { engine, vectors });
}

async function judgeExamples(words, judge) {
  const vectors = vectorsOf(words);
  let passed = 0;
  for (const vector of vectors) {
    const result = await judge.judge(vector.case).catch(() => null);
    if (result && vector.agrees(result)) passed += 1;
  }
  return { passed, of: vectors.length };
}
