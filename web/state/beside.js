// The machines beside: of the same rack, those of the same kind first. What is read on one is compared with, never judged as this one's.

/** @param {import("./actions.js").State} state @returns {{tag: string, like: boolean}[]} */
export function machinesBeside({ call, register }) {
  const { plate } = call;
  const like = (one) => one.type === plate.type && one.model === plate.model && one.rated_load_current === plate.rated_load_current;
  const others = register.machines.filter((one) => one.id !== call.machine && one.site === plate.site && (one.rack ?? "") === (plate.rack ?? "") && !one.retired);
  return others.map((one) => ({ tag: one.tag, like: like(one) })).sort((a, b) => Number(b.like) - Number(a.like));
}
