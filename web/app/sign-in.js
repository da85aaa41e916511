// Signing this phone in, and keeping what it was given.
import { writeMeta } from "../storage/meta.js";
import { signIn } from "../sync/sign-in.js";
import { NoLine } from "../sync/http.js";
import words from "../words/en.js";

export async function signInHere(page, event) {
  event.preventDefault();
  const { store } = page;
  const form = new FormData(event.target);
  store.dispatch({ type: "sign-in-began" });
  try {
    const session = await signIn(form.get("name"), form.get("password"), store.state.session?.device ?? form.get("device"));
    await writeMeta("session", session);
    store.dispatch({ type: "signed-in", session });
    location.hash = "#/";
    page.line.poke();
  } catch (error) {
    const trouble = error instanceof NoLine ? words.signIn.noLine : [error.message, error.remedy].filter(Boolean).join(" ");
    store.dispatch({ type: "sign-in-failed", trouble });
  }
}

/** A name the office will recognise the phone by, to begin with. */
export function deviceName() {
  const system = /iPhone|iPad|Android|Windows|Mac|Linux/.exec(navigator.userAgent)?.[0] ?? "";
  return system ? `${system} phone` : "Phone";
}
