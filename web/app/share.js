// Handing a call's text to another program of the phone, or to its clipboard.
import { callText } from "../state/share.js";
import words from "../words/index.js";

export const shareActs = (page) => ({ shareCall: () => shareCall(page) });

async function shareCall({ store }) {
  const text = callText(store.state, words);
  store.dispatch({ type: "shared", shared: { how: await handOver(text), text } });
}

/** Who took it: another program of the phone, its clipboard, or nobody, so that it is shown to be copied by hand. */
async function handOver(text) {
  try {
    if (!navigator.share) return await navigator.clipboard.writeText(text).then(() => "copied");
    await navigator.share({ text });
    return "taken";
  } catch (error) {
    return error.name === "AbortError" ? "taken" : "by-hand";
  }
}
