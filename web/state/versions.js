// What a reading said before it was corrected. A leg added to those that stood is no correction of them.

/** @param {{rows: Row[]}} reading @returns {{body: Record<string, any>, by: string, at: string}[]} oldest first */
export function correctedVersions({ rows }) {
  const told = versionsOf(rows);
  return told.filter(({ body }, i) => i + 1 < told.length && !holdsStill(body, told[i + 1].body));
}

function versionsOf(rows) {
  let body = {};
  return rows.map(({ entry }) => {
    body = Object.fromEntries(Object.entries({ ...body, ...entry.body }).filter(([, value]) => value !== null));
    return { body, by: entry.author, at: entry.made_at };
  });
}

/** Whether everything that was read still stands in what came after. */
const holdsStill = (before, after) => Object.entries(before).every(([name, value]) => (name === "legs" ? holdsStill(value, after.legs ?? {}) : JSON.stringify(after[name]) === JSON.stringify(value)));
