"""What was opened and is not yet closed: jumpers, lifted and rolled leads, moved valves, settings half told."""

from . import moment
from .call import Call
from .kinds import Json
from .say import say

JUMPER = "jumper"
# Opening action, the action that closes it, the item's kind.
PAIRS = (
    ("jumper_on", "jumper_off", JUMPER),
    ("lead_lifted", "lead_restored", "lead"),
    ("leads_rolled", "leads_rolled", "rolled_leads"),
    ("valve_moved", "valve_moved", "valve"),
)


class OpenItem:
    """Something left open. kind: jumper, lead, rolled_leads, valve or setting. action: the id that opened it."""

    def __init__(self, kind: str, what: str, since: str, action: str) -> None:
        self.kind = kind
        self.what = what
        self.since = since
        self.action = action


def open_items(call: Call) -> "list[OpenItem]":
    """Return the open items, the oldest first."""
    actions = _in_time(call.actions)
    found: "list[OpenItem]" = []
    for opens, closes, kind in PAIRS:
        found.extend(_still_open(actions, opens, closes, kind))
    for action in actions:
        if action["kind"] == "setting_changed" and (_blank(action, "before") or _blank(action, "after")):
            found.append(_item("setting", action))
    if call.sign("jumper_on") and not [action for action in actions if action["kind"] in ("jumper_on", "jumper_off")]:
        found.append(OpenItem(JUMPER, "", "", ""))
    keyed = [((moment.seconds(item.since) or 0.0, item.kind, item.what), item) for item in found]
    return [item for _, item in sorted(keyed, key=lambda pair: pair[0])]


def _in_time(actions: "list[Json]") -> "list[Json]":
    keyed = []
    for action in actions:
        at = moment.seconds(action["at"]) if action.get("at") else None
        keyed.append((at or 0.0, str(action.get("id") or ""), action))
    return [action for _, _, action in sorted(keyed, key=lambda one: one[:2])]


def _still_open(actions: "list[Json]", opens: str, closes: str, kind: str) -> "list[OpenItem]":
    """Return what one kind of action opened and nothing closed: by `closes`, by its words, or the only one open."""
    waiting: "list[Json]" = []
    for action in actions:
        closed = _closed_by(action, waiting, opens, closes)
        if closed is not None:
            waiting = [other for other in waiting if other is not closed]
        elif action["kind"] == opens:
            waiting.append(action)
    return [_item(kind, action) for action in waiting]


def _closed_by(action: Json, waiting: "list[Json]", opens: str, closes: str) -> "Json | None":
    if action["kind"] != closes:
        return None
    if action.get("closes"):
        named = [other for other in waiting if other.get("id") == action["closes"]]
        return named[0] if named else None
    same = [other for other in waiting if (other.get("what") or "") == (action.get("what") or "")]
    if opens == closes:
        same = [other for other in same if _put_back(other, action)]
        return same[0] if same else None
    if not same and len(waiting) == 1:
        same = waiting
    return same[0] if same else None


def _put_back(opened: Json, action: Json) -> bool:
    """Return whether an action of the same kind brings the thing back to where it was."""
    return not _blank(opened, "before") and str(opened["before"]) == str(action.get("after"))


def _blank(action: Json, member: str) -> bool:
    value = action.get(member)
    return value is None or value == ""


def _item(kind: str, action: Json) -> OpenItem:
    return OpenItem(kind, str(action.get("what") or ""), str(action.get("at") or ""), str(action.get("id") or ""))


def open_items_json(items: "list[OpenItem]", language: str) -> "list[Json]":
    """Return the items as the contract tells them."""
    told = []
    for item in items:
        key = "open." + item.kind if item.what else "open." + item.kind + ".unnamed"
        entry: Json = {"kind": item.kind, "what": say(key, {"what": item.what}, language), "since": item.since or None}
        if item.action:
            entry["action"] = item.action
        told.append(entry)
    return told
