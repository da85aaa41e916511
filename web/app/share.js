// Handing a call's text to another program of the phone, or to its clipboard.
import { callText } from "../state/share.js";
import words from "../words/index.js";

export const shareActs = (page) => ({ shareCall: () => shareCall(page) });

async function shareCall({ store }) {
  const text = callText(store.state, words);
  store.dispatch({ type: "shared", shared: await handedOver(text) ? "" : text });
}

/** Whether another program or the clipboard took it; else it is shown to be copied by hand. */
async function handedOver(text) {
  try {
    if (navigator.share) await navigator.share({ text });
    else await navigator.clipboard.writeText(text);
    return true;
  } catch (error) {
    return error.name === "AbortError";
  }
}
