// Acts that write: on one screen a second tap, or a key held down, while the first is being kept or just after means the same.

/** How long two taps of one thumb may lie apart, in milliseconds; common practice, no source. */
const TWICE = 400;

/** @param {(...given: any[]) => any} act answers with what it kept, where its button may still stand */
export function oneAtATime(act) {
  const under = new Set();
  return async (...given) => {
    const screen = location.hash;
    if (under.has(screen)) return given[0]?.preventDefault?.();
    under.add(screen);
    let kept = null;
    try {
      kept = await act(...given);
    } finally {
      setTimeout(() => under.delete(screen), kept ? TWICE : 0);
    }
  };
}
