// Whether the server's clock and this phone's tell the same time. Shown to the person; never decides anything.

/**
 * Seconds the phone is ahead of the server, from one answer.
 * @param {string} serverTime @param {number} askedAt @param {number} answeredAt milliseconds on this phone
 */
export function secondsAhead(serverTime, askedAt, answeredAt) {
  const server = Date.parse(serverTime);
  if (Number.isNaN(server)) return null;
  return Math.round(((askedAt + answeredAt) / 2 - server) / 1000);
}
