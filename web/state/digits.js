// What the pad's keys do to the text of a reading. The digits stay exactly as typed: they carry the meter's resolution.

const LONGEST = 9;
const COMPLETE = /^[<>]?[+-]?\d+(\.\d+)?$/;

/** @param {string} text @param {string} key a digit, ".", ">", "±", "OL", "back" or "clear" */
export function press(text, key) {
  if (key === "back") return text === "OL" ? "" : text.slice(0, -1);
  if (key === "clear") return "";
  if (key === "OL") return "OL";
  const typed = text === "OL" ? "" : text;
  if (key === ">") return typed.startsWith(">") ? typed.slice(1) : ">" + typed;
  if (key === "±") return turned(typed);
  if (key === ".") return withPoint(typed);
  return typed.length < LONGEST ? typed + key : typed;
}

function turned(text) {
  const bound = text.startsWith(">") ? ">" : "";
  const number = text.slice(bound.length);
  return bound + (number.startsWith("-") ? number.slice(1) : "-" + number);
}

function withPoint(text) {
  if (text.includes(".")) return text;
  return /\d$/.test(text) ? text + "." : text + "0.";
}

/** The text as it is kept: a point with nothing behind it is dropped. */
export const settled = (text) => (text.endsWith(".") ? text.slice(0, -1) : text);

export const isComplete = (text) => text === "OL" || COMPLETE.test(settled(text));
