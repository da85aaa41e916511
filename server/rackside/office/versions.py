"""Things that say two things at once: two corrections of one fact, neither over the other. Pure."""

from typing import Any, NamedTuple

from rackside.engine.settle import things_of
from rackside.records import Refused

Json = dict[str, Any]


class Version(NamedTuple):
    """One side of a disagreement."""

    entry: str
    author: str
    at: str
    value: Any
    judged: bool


class Clash(NamedTuple):
    """A member with two versions or more, and every entry that stands at an end of the thing."""

    thing: str
    kind: str
    member: str
    versions: list[Version]
    body: Json


def clashes_of(entries: list[Json]) -> list[Clash]:
    """Return the members on which entries of one thing disagree, the judged value first."""
    found = []
    by_id = {entry["id"]: entry for entry in entries}
    for thing in things_of(entries):
        family = [by_id[entry_id] for entry_id in thing.versions if entry_id in by_id]
        for member in thing.clashes:
            found.append(_clash(thing, member, family))
    return found


def _clash(thing: Any, member: str, family: list[Json]) -> Clash:
    giving = [entry for entry in family if member in entry["body"]]
    last = [entry for entry in giving if not any(entry["id"] in _before(other, family) for other in giving)]
    versions: list[Version] = []
    for entry in last:
        value = entry["body"][member]
        if all(value != one.value for one in versions):
            versions.append(Version(entry["id"], entry["author"], entry["made_at"], value, not versions))
    return Clash(thing.id, thing.kind, member, versions, thing.body)


def _before(entry: Json, family: list[Json]) -> set[str]:
    """Return what an entry replaces, directly or through what it replaces."""
    by_id = {one["id"]: one for one in family}
    found: set[str] = set()
    waiting = list(entry["base"])
    while waiting:
        one = waiting.pop()
        if one not in found:
            found.add(one)
            waiting += by_id[one]["base"] if one in by_id else []
    return found


def picked(clashes: list[Clash], thing: str, form: dict[str, str]) -> Json:
    """Return the members a form settles: each box is named after a member and holds the entry picked."""
    members = {}
    for clash in clashes:
        chosen = [version for version in clash.versions if version.entry == form.get(clash.member)]
        if clash.thing == thing and chosen:
            members[clash.member] = chosen[0].value
    if not members:
        raise Refused("invalid_query", "Nothing was picked, or it was settled meanwhile: open the page again.")
    return members
