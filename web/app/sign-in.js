// Signing this phone in, and keeping what it was given.
import { readMeta, writeFacts, writeMeta } from "../storage/meta.js";
import { signIn, signOut } from "../sync/sign-in.js";
import { tellNotKept } from "./keep.js";
import { readLog } from "./log.js";
import { NoLine } from "../sync/http.js";
import words from "../words/index.js";

export async function signInHere(page, event) {
  event.preventDefault();
  const { store } = page;
  const form = new FormData(event.target);
  store.dispatch({ type: "sign-in-began" });
  try {
    const session = await askFor(form);
    store.dispatch({ type: "signed-in", session });
    await readLog(page);
    goBack();
    page.line.poke();
  } catch (error) {
    store.dispatch({ type: "sign-in-failed", trouble: troubleOf(error) });
  }
}

function troubleOf(error) {
  if (error instanceof NoLine) return words.signIn.noLine;
  if (error.name === "QuotaExceededError") return words.trouble.full;
  return [error.message, error.remedy].filter(Boolean).join(" ");
}

/** Back to what was asked for before the password was: a label's machine, a call. */
function goBack() {
  if (location.hash === "#/sign-in") location.hash = "#/";
  else dispatchEvent(new HashChangeEvent("hashchange"));
}

/** The same person gets the same device again, so that what they left here is theirs to send. */
async function askFor(form) {
  const known = (await readMeta("devices")) ?? {};
  const name = form.get("name");
  const session = await signIn(name, form.get("password"), known[name] ?? form.get("device"));
  await writeFacts({ session, devices: { ...known, [name]: session.device } });
  return session;
}

/** Nothing kept is dropped: it waits for this person's next sign-in. */
export async function signOutHere({ store }) {
  const { session } = store.state;
  await writeMeta("session", null).catch((error) => tellNotKept(store, error));
  store.dispatch({ type: "signed-out" });
  signOut(session).catch(() => {});
}

/** A name the office will recognise the phone by, to begin with. */
export function deviceName() {
  const system = /iPhone|iPad|Android|Windows|Mac|Linux/.exec(navigator.userAgent)?.[0] ?? "";
  return system ? `${system} phone` : "Phone";
}
