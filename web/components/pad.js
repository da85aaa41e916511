// The numeric pad: big keys for one thumb. What a key does to the text is decided in state/digits.js.
import { html } from "../vendor/lit-html/lit-html.js";

/**
 * @param {{special: "OL" | "±" | "clear", press: (key: string) => void, next: (() => void) | null, keep: (() => void) | null, keepWord: string, words: any}} pad
 */
export function pad({ special, press, next, keep, keepWord, words }) {
  const key = (name, word = name) => html`<button class="key" type="button" @click=${() => press(name)}>${word}</button>`;
  const back = html`<button class="key is-quiet" type="button" aria-label=${words.entry.back} @click=${() => press("back")}>⌫</button>`;
  return html`<div class="pad" role="group">
    ${key("1")}${key("2")}${key("3")}${back}
    ${key("4")}${key("5")}${key("6")}${quiet(special, press, words)}
    ${key("7")}${key("8")}${key("9")}${quiet(">", press, words)}
    ${key(".")}${key("0")}
    ${next ? html`<button class="key is-next ${keep ? "" : "is-wide"}" type="button" @click=${next}>${words.entry.nextField}</button>` : ""}
    ${keep ? html`<button class="key is-keep ${next ? "" : "is-wide"}" type="button" @click=${keep}>${keepWord}</button>` : ""}
  </div>`;
}

const quiet = (name, press, words) =>
  html`<button class="key is-quiet" type="button" aria-label=${words.keys[name]} @click=${() => press(name)}>${words.keyFace[name] ?? name}</button>`;

const KEYS = { ".": ".", ",": ".", ">": ">", "-": "±", o: "OL", O: "OL", Backspace: "back" };

/** The pad's key for a key of a keyboard: a digit, a sign, "go", or null. */
export function padKey(event) {
  if (event.ctrlKey || event.metaKey || event.altKey) return null;
  if (/^\d$/.test(event.key)) return event.key;
  if (event.key === "Enter" && event.target?.tagName !== "BUTTON") return "go";
  return KEYS[event.key] ?? null;
}
