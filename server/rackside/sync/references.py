"""Which other entries a body names, and what each may be. Pure."""

from typing import Any, NamedTuple

THINGS = ("site", "machine", "meter")
ANY: tuple[str, ...] = ()


class Rule(NamedTuple):
    member: str
    kinds: tuple[str, ...] = ANY
    same_call: bool = False


RULES: dict[str, tuple[Rule, ...]] = {
    "machine": (Rule("site", ("site",)),),
    "call": (Rule("machine", ("machine",)), Rule("follows", ("call",))),
    "reading": (Rule("round", ("round",), True), Rule("repeat_of", ("reading",), True)),
    "action": (Rule("closes", ("action",), True),),
    "photo": (Rule("of"),),
    "decision": (Rule("repair", ("action",), True),),
    "signature": (Rule("photo", ("photo",), True),),
    "review": (Rule("of"),),
    "retraction": (Rule("of"), Rule("same_as")),
}


def named(entry: dict[str, Any]) -> list[str]:
    """Return every id an entry leans on: its call, its base, and those in its body."""
    body = entry["body"]
    inside = [body[rule.member] for rule in RULES.get(entry["kind"], ()) if isinstance(body.get(rule.member), str)]
    call = [entry["call"]] if entry["call"] and entry["call"] != entry["id"] else []
    return [*call, *entry["base"], *inside]
