// What the lists show: calls in the order a technician wants them, machines by site and rack.

const TO_DO = new Set(["open", "returned"]);

/** @param {import("./actions.js").State} state */
export function callLists({ register, session }) {
  const mine = (call) => call.assigned_to === session?.person;
  const toDo = register.calls.filter((call) => TO_DO.has(call.state));
  return {
    mine: toDo.filter(mine),
    others: toDo.filter((call) => !mine(call)),
    done: register.calls.filter((call) => !TO_DO.has(call.state)).slice(0, 20),
  };
}

/** Machines of each site by rack, for choosing one. */
export function machineShelves({ register }) {
  return register.sites.map((site) => {
    const machines = register.machines.filter((machine) => machine.site === site.id && !machine.retired);
    const racks = [...new Set(machines.map((machine) => machine.rack ?? ""))];
    return { site, racks: racks.map((rack) => ({ rack, machines: machines.filter((machine) => (machine.rack ?? "") === rack) })) };
  });
}
