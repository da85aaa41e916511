// How this phone shows things: its light, the size of its letters, which unit a field offers first, how the next leg comes.

export const USUAL = { theme: "dark", text: "usual", units: "us", legs: "itself" };
export const CHOICES = { theme: ["dark", "sun"], text: ["usual", "large", "largest"], units: ["us", "si"], legs: ["itself", "key"] };
const PAIRS = [["F", "C"], ["psig", "kPa"]];

/** What was chosen before, each checked, since anybody may write into a browser's store. */
export const readSettings = (held) =>
  Object.fromEntries(Object.keys(USUAL).map((name) => [name, CHOICES[name].includes(held(name)) ? held(name) : USUAL[name]]));

/**
 * The engine's words with each point's units in the order this phone offers them. Nothing that was read is converted.
 * @param {any} words @param {string} system "us" or "si"
 */
export const withUnits = (words, system) =>
  words && { ...words, points: words.points.map((point) => ({ ...point, warmth: system === "si" ? "C" : "F", units: ordered(point.units, system) })) };

function ordered(units, system) {
  const pair = PAIRS.find((one) => one.includes(units[0]));
  if (!pair) return units;
  const first = pair[system === "si" ? 1 : 0];
  return [first, ...units.filter((unit) => unit !== first)];
}
