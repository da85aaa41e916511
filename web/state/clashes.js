// Two versions of one fact: corrections that did not know each other. The first by the server's counter holds until a person picks.

/**
 * @typedef {{entry: string, by: string, at: string, value: any, holds: boolean}} Version
 * @param {any} thing as fold gives it
 * @returns {{member: string, versions: Version[]}[]}
 */
export function clashesOf(thing) {
  const members = [...new Set(thing.rows.flatMap(({ entry }) => Object.keys(entry.body)))];
  return members.map((member) => ({ member, versions: versionsOf(thing, member) })).filter(({ versions }) => versions.length > 1);
}

/** The entries of a thing that no other replaces: what a correction of it must name to speak over all of them. */
export const endsOf = (thing) => notReplaced(thing, thing.rows).map(({ id }) => id);

function versionsOf(thing, member) {
  const versions = [];
  for (const { id, entry } of notReplaced(thing, thing.rows.filter((row) => member in row.entry.body))) {
    const value = entry.body[member];
    const told = JSON.stringify(value);
    if (versions.every((one) => JSON.stringify(one.value) !== told)) versions.push({ entry: id, by: entry.author, at: entry.made_at, value, holds: versions.length === 0 });
  }
  return versions;
}

const notReplaced = (thing, rows) => rows.filter(({ id }) => !rows.some((other) => thing.above.get(other.id)?.has(id)));
