// The short code of a machine's label; the rule is server/docs/labels.md, the same as the office's.

const SIGNS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";
const WHOLE = 25;
export const SHORTEST = 6;

/** All signs of a machine's id, the label's first. */
export function signsOf(id) {
  let number = BigInt("0x" + id.replaceAll("-", ""));
  let signs = "";
  for (let place = 0; place < WHOLE; place += 1) {
    signs += SIGNS[Number(number & 31n)];
    number >>= 5n;
  }
  return signs;
}

export const plainCode = (typed) => typed.toUpperCase().replace(/[\s-]/g, "").replaceAll("O", "0").replaceAll("I", "1");

/** Why a typed code can't be one: "short", "mistyped" or "". */
export function codeFault(typed) {
  const code = plainCode(typed);
  if ([...code].some((sign) => !SIGNS.includes(sign))) return "mistyped";
  return code.length < SHORTEST ? "short" : "";
}

/** The machines a typed code may mean. */
export const matches = (typed, machines) => (codeFault(typed) ? [] : machines.filter((machine) => signsOf(machine.id).startsWith(plainCode(typed))));
