// How long to wait before trying again: growing, with a little chance so that phones do not knock together.

const FIRST = 2_000;
const LONGEST = 60_000;
const QUIET = 60_000;

/** Milliseconds until the next try after `failures` in a row; a quiet minute when all went well. */
export function pauseAfter(failures, chance = Math.random()) {
  if (failures === 0) return QUIET;
  const grown = Math.min(LONGEST, FIRST * 2 ** (failures - 1));
  return Math.round(grown * (0.75 + chance / 2));
}
