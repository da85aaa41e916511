"""The short code of a machine's label; the rule is server/docs/labels.md. Pure."""

from collections.abc import Iterable

SIGNS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
SHORTEST, WHOLE = 6, 25
BITS = 5


def signs_of(machine_id: str) -> str:
    """Return all signs of an id, the label's first."""
    number = int(machine_id.replace("-", ""), 16)
    return "".join(SIGNS[number >> BITS * place & 31] for place in range(WHOLE))


def code_of(machine_id: str, others: Iterable[str]) -> str:
    """Return the code that tells a machine from all others: six signs, more where six are shared."""
    own = signs_of(machine_id)
    rivals = [signs for signs in map(signs_of, others) if signs != own and signs.startswith(own[:SHORTEST])]
    length = SHORTEST
    while any(rival.startswith(own[:length]) for rival in rivals):
        length += 1
    return own[:length]


def matches(typed: str, machine_ids: Iterable[str]) -> list[str]:
    """Return the machines a typed code may mean; none where it is too short."""
    plain = typed.upper().replace(" ", "").replace("-", "")
    if len(plain) < SHORTEST:
        return []
    return [machine_id for machine_id in machine_ids if signs_of(machine_id).startswith(plain)]
