// Whether this phone can go down to the machine room: each thing it needs there, and whether it has it.

const NEEDS = ["page", "engine", "register", "sign-in"];

/**
 * @param {import("./actions.js").State} state
 * @returns {{ready: boolean, needs: {need: string, met: boolean}[], sites: any[], machines: number, asOf: string, vectors: any}}
 */
export function readiness(state) {
  const met = {
    page: state.page.held,
    engine: state.engine.vectors !== null && state.engine.vectors.passed === state.engine.vectors.of && state.engine.vectors.of > 0,
    register: state.register.machines.length > 0,
    "sign-in": state.session !== null,
  };
  const needs = NEEDS.map((need) => ({ need, met: met[need] }));
  return {
    ready: needs.every(({ met }) => met),
    needs,
    sites: state.register.sites.map((site) => ({ ...site, machines: machinesOf(state, site.id).length })),
    machines: state.register.machines.length,
    asOf: state.pulledAt,
    vectors: state.engine.vectors,
  };
}

/** Whether this phone's clock and the office's tell times that are worth a word. */
export const isClockOff = (ahead) => ahead !== null && Math.abs(ahead) > 120;

export const machinesOf = (state, site) => state.register.machines.filter((machine) => machine.site === site && !machine.retired);
