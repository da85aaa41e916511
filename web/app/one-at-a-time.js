// Acts that write: a second tap, or a key held down, while the first is still being kept means the same.

/** @param {(...given: any[]) => any} act */
export function oneAtATime(act) {
  let running = false;
  return async (...given) => {
    if (running) return given[0]?.preventDefault?.();
    running = true;
    try {
      await act(...given);
    } finally {
      running = false;
    }
  };
}
