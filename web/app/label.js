// A machine's label opened from outside: its machine at once, where its code means one that this phone knows.
import { matches } from "../state/short-code.js";
import { toMachine } from "../state/route.js";

/** Asked when the address comes and again after news, since the machine may only now have reached this phone. */
export function lookUpLabel({ store }) {
  const { route, register, session, code } = store.state;
  if (route.name !== "code" || !route.code || !session || code) return;
  const found = matches(route.code, register.machines);
  if (found.length === 1) location.replace(toMachine(found[0].id));
}
