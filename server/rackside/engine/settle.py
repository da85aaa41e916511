"""Settle the log: every thing with its corrections applied, retractions removed, and disagreements named.

An entry is never changed. A correction names the ids it replaces in `base` and gives only the members that change; null
clears. Two corrections clash only where they give one member different values and neither replaces the other: then the
earlier by the server's counter holds until a person picks. No device clock takes part.
"""

from .kinds import Any, Json

UNSENT = 1 << 60


class Thing:
    """One thing of the log as it stands: named by the id of its first entry.

    order: the server's counter of the first entry (unsent ones last, in the order given). clashes: members with two
    versions.
    versions: ids of all entries that made it.
    """

    def __init__(self, first: Json, order: "tuple[int, int]") -> None:
        self.id = str(first.get("id"))
        self.kind = str(first.get("kind"))
        self.call = first.get("call")
        self.made_at = str(first.get("made_at") or "")
        self.device = str(first.get("device") or "")
        self.author = str(first.get("author") or "")
        self.order = order
        self.body: Json = {}
        self.clashes: "list[str]" = []
        self.versions: "list[str]" = []


def things_of(entries: "list[Json]") -> "list[Thing]":
    """Return every thing that still stands, in the order of the counter."""
    placed = _placed(entries)
    withdrawn = _retracted(placed)
    families: "dict[str, list[tuple[tuple[int, int], Json]]]" = {}
    by_id = {str(entry.get("id")): entry for _, entry in placed}
    for order, entry in placed:
        if entry.get("kind") == "retraction" or str(entry.get("id")) in withdrawn:
            continue
        families.setdefault(_root(entry, by_id), []).append((order, entry))
    things = []
    for root in sorted(families):
        first = by_id.get(root)
        if first is not None and not first.get("base") and root not in withdrawn:
            things.append(_settled(first, families[root]))
    return sorted(things, key=lambda thing: (thing.order, thing.id))


def _placed(entries: "list[Json]") -> "list[tuple[tuple[int, int], Json]]":
    placed = []
    for index in range(len(entries)):
        cursor = entries[index].get("cursor")
        order = (cursor, 0) if isinstance(cursor, int) else (UNSENT, index)
        placed.append((order, entries[index]))
    return sorted(placed, key=lambda pair: (pair[0], str(pair[1].get("id"))))


def _retracted(placed: "list[tuple[tuple[int, int], Json]]") -> "list[str]":
    """Return the ids taken back, by retractions that were not taken back themselves."""
    retractions = [entry for _, entry in placed if entry.get("kind") == "retraction"]
    targets = [str((entry.get("body") or {}).get("of")) for entry in retractions]
    standing = [entry for entry in retractions if str(entry.get("id")) not in targets]
    return [str((entry.get("body") or {}).get("of")) for entry in standing]


def _root(entry: Json, by_id: "dict[str, Json]") -> str:
    """Return the id of the first entry of a thing, following the first base each time."""
    seen = [str(entry.get("id"))]
    while entry.get("base"):
        parent = str(entry["base"][0])
        if parent in seen:
            break
        seen.append(parent)
        if parent not in by_id:
            break
        entry = by_id[parent]
    return seen[-1]


def _settled(first: Json, family: "list[tuple[tuple[int, int], Json]]") -> Thing:
    orders = [order for order, entry in family if entry is first]
    thing = Thing(first, orders[0] if orders else (UNSENT, 0))
    thing.versions = [str(entry.get("id")) for _, entry in family]
    replaced = {str(entry.get("id")): _ancestors(entry, family) for _, entry in family}
    members = sorted({member for _, entry in family for member in (entry.get("body") or {})})
    for member in members:
        giving = [entry for _, entry in family if member in (entry.get("body") or {})]
        last = [entry for entry in giving if not _overtaken(entry, giving, replaced)]
        value = last[0]["body"][member]
        if [entry for entry in last if entry["body"][member] != value]:
            thing.clashes.append(member)
        if value is not None:
            thing.body[member] = value
    return thing


def _overtaken(entry: Json, giving: "list[Json]", replaced: "dict[str, list[str]]") -> bool:
    for other in giving:
        if str(entry.get("id")) in replaced[str(other.get("id"))]:
            return True
    return False


def _ancestors(entry: Json, family: "list[tuple[tuple[int, int], Json]]") -> "list[str]":
    """Return the ids an entry replaces, directly or through what it replaces."""
    by_id: "dict[str, Any]" = {str(member.get("id")): member for _, member in family}
    found: "list[str]" = []
    waiting = [str(base) for base in entry.get("base") or []]
    while waiting:
        one = waiting.pop()
        if one in found:
            continue
        found.append(one)
        if one in by_id:
            waiting.extend([str(base) for base in by_id[one].get("base") or []])
    return found
