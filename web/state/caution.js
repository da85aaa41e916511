// Which words stand before a field, and whether this call has already heard them.

/**
 * @param {Point} point @param {string} state of the machine @param {{cautions: Record<string, string>}} words of the engine
 * @returns {{step: string, texts: string[]} | null}
 */
export function cautionOf(point, state, words) {
  if (!point.caution) return null;
  const energised = state !== "isolated" || point.kind === "absence";
  const steps = energised ? ["energised", point.caution] : [point.caution];
  const texts = [...new Set(steps)].map((step) => words.cautions[step]).filter(Boolean);
  return texts.length ? { step: point.caution, texts } : null;
}

export const cautionMark = (call, step) => `${call}/${step}`;

/**
 * What the screen of a reading shows: "kept", "skip", "caution" or "typing".
 * @param {import("./actions.js").State} state @param {Point} point
 */
export function stageOf(state, point) {
  if (state.kept) return "kept";
  if (state.skipping) return "skip";
  const caution = cautionOf(point, state.draft.state, state.engine.words);
  return !caution || state.acknowledged.has(cautionMark(state.call.id, caution.step)) ? "typing" : "caution";
}
