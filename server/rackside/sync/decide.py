"""Decide about one entry: taken, known already, or refused and why. Pure: it sees only what it is given."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from rackside.engine.settle import things_of
from rackside.records import Refused
from rackside.records.caller import Caller
from rackside.records.log import Known, Logged, seal_of
from rackside.sync import forms
from rackside.sync.prepare import Prepared
from rackside.sync.references import RULES, THINGS, Rule

Json = dict[str, Any]


@dataclass
class Ledger:
    """What the log holds of the ids in a batch, growing as entries of the batch are taken."""

    known: dict[str, Known]
    versions: dict[str, list[Json]]
    owners: Mapping[str, str]
    secret: str
    fresh_sites: set[str] = field(default_factory=set)

    def take(self, logged: Logged, author: str) -> None:
        """Count an entry in; a site that the sender has just entered, not carried here, is theirs."""
        entry = logged.entry
        self.known[entry["id"]] = Known(
            entry["id"], entry["kind"], entry["call"], logged.thing_id, logged.site_id, logged.content_hash, 0
        )
        self.versions.setdefault(logged.thing_id, []).append(entry)
        if entry["kind"] == "site" and not entry["base"] and entry["author"] == author:
            self.fresh_sites.add(logged.thing_id)


def decide(prepared: Prepared, ledger: Ledger, caller: Caller) -> Logged | Known:
    """Return the entry ready for the log, or what the log holds when it is a repeat; refuse otherwise."""
    entry = prepared.entry
    held = ledger.known.get(prepared.id or "")
    if held is not None:
        if held.content_hash == prepared.content_hash:
            return held
        raise Refused("id_reused", f"Another entry with the id {held.id} was accepted before.")
    if prepared.refused is not None:
        raise prepared.refused
    _check_author(prepared, ledger, caller)
    thing_id = _thing_of(entry, ledger)
    body = _body_now(entry, thing_id, ledger)
    call = _call_of(entry, ledger)
    for rule in RULES.get(entry["kind"], ()):
        if entry["body"].get(rule.member) is not None:
            _check_reference(rule, entry, ledger)
    site_id = _site_of(entry, body, thing_id, call, ledger)
    if not _sealed(prepared, ledger):
        _check_scope(entry, site_id, ledger, caller)
    about_id = entry["body"].get("of") if entry["kind"] in ("retraction", "review") else None
    return Logged(entry, prepared.content, prepared.content_hash, thing_id, about_id, site_id)


def _sealed(prepared: Prepared, ledger: Ledger) -> bool:
    """Return whether this log took the entry before: a restored server asks anew neither for author nor for site."""
    return bool(prepared.seal) and prepared.seal == seal_of(ledger.secret, prepared.content_hash)


def _check_author(prepared: Prepared, ledger: Ledger, caller: Caller) -> None:
    entry = prepared.entry
    if _sealed(prepared, ledger):
        return
    if entry["author"] != caller.author:
        raise Refused("forged_author", f"The author is {entry['author']!r}, but {caller.author!r} is sending.")
    owner = ledger.owners.get(entry["device"], caller.author)
    if owner != caller.author:
        raise Refused("forged_author", f"The device {entry['device']} belongs to {owner!r}.")
    if entry["kind"] == "review" and "review" not in caller.may:
        raise Refused("not_allowed", "A review is written by the office.")


def _thing_of(entry: Json, ledger: Ledger) -> str:
    """Return the id of the first entry of the thing this one is about."""
    things: set[str] = set()
    for base in entry["base"]:
        held = _held(base, "/base", ledger)
        if held.kind != entry["kind"]:
            raise _invalid("/base", f"The entry {base} is a {held.kind}, not a {entry['kind']}.")
        if held.call_id != entry["call"]:
            raise _invalid("/call", f"The entry {base} belongs to another call.")
        things.add(held.thing_id)
    if len(things) > 1:
        raise _invalid("/base", "These entries are not versions of one thing.")
    return things.pop() if things else str(entry["id"])


def _held(entry_id: str, pointer: str, ledger: Ledger) -> Known:
    held = ledger.known.get(entry_id)
    if held is None:
        told = f"The server does not hold the entry {entry_id}."
        raise Refused("missing_reference", f"{pointer}: {told}", errors=[{"pointer": pointer, "detail": told}])
    return held


def _invalid(pointer: str, told: str) -> Refused:
    return Refused("invalid_body", f"{pointer}: {told}", errors=[{"pointer": pointer, "detail": told}])


def _body_now(entry: Json, thing_id: str, ledger: Ledger) -> Json:
    """Return what the thing says with this entry; a correction must leave it well formed."""
    if not entry["base"]:
        body: Json = entry["body"]
        return body
    body = things_of([*ledger.versions[thing_id], entry])[0].body
    faults = forms.body_faults(entry["kind"], body | entry["body"])
    if faults:
        raise forms.refusal(faults)
    return body


def _call_of(entry: Json, ledger: Ledger) -> Known | None:
    kind, call_id = entry["kind"], entry["call"]
    if kind in THINGS and call_id is not None:
        raise _invalid("/call", f"The call of a {kind} is null.")
    if call_id is None:
        return None if kind in THINGS else _call_of_thing(entry, ledger)
    if kind == "call":
        first = entry["id"] if not entry["base"] else ledger.known[entry["base"][0]].thing_id
        if call_id != first:
            raise _invalid("/call", "The call of a call is its own first id.")
        return ledger.known.get(call_id)
    call = _held(call_id, "/call", ledger)
    if call.kind != "call" or call.thing_id != call.id:
        raise _invalid("/call", f"The entry {call_id} does not open a call.")
    return call


def _call_of_thing(entry: Json, ledger: Ledger) -> None:
    """Allow null only where a photo, review or retraction is about a site, machine or meter."""
    target = ledger.known.get(entry["body"].get("of") or "")
    if entry["kind"] not in ("photo", "review", "retraction"):
        raise _invalid("/call", f"A {entry['kind']} belongs to a call.")
    if target is not None and target.call_id is not None:
        raise _invalid("/call", f"This {entry['kind']} is about an entry of the call {target.call_id}: name it.")
    if target is None and entry["kind"] == "photo" and not entry["body"].get("of"):
        raise _invalid("/call", "A photo belongs to a call, or names the machine it is of.")


def _check_reference(rule: Rule, entry: Json, ledger: Ledger) -> None:
    pointer = f"/body/{rule.member}"
    target = _held(entry["body"][rule.member], pointer, ledger)
    if rule.kinds and target.kind not in rule.kinds:
        raise _invalid(pointer, f"The entry {target.id} is a {target.kind}, not a {' or '.join(rule.kinds)}.")
    if rule.kinds and target.thing_id != target.id:
        raise _invalid(pointer, f"Name the thing by the id of its first entry, {target.thing_id}.")
    if rule.same_call and target.call_id != entry["call"]:
        raise _invalid(pointer, f"The entry {target.id} belongs to another call.")
    if entry["kind"] in ("review", "retraction") and entry["call"] and target.call_id is None and rule.member == "of":
        raise _invalid("/call", f"The entry {target.id} is a {target.kind} and belongs to no call: the call is null.")


def _site_of(entry: Json, body: Json, thing_id: str, call: Known | None, ledger: Ledger) -> str | None:
    kind = entry["kind"]
    if kind == "site":
        return thing_id
    if kind == "machine":
        site: str = body["site"]
        return site
    if kind == "call" and (entry["body"].get("machine") or not entry["base"]):
        return ledger.known[body["machine"]].site_id
    if kind == "call":
        return ledger.known[entry["base"][0]].site_id
    if call is not None:
        return call.site_id
    target = ledger.known.get(entry["body"].get("of") or "")
    return target.site_id if target is not None else None


def _check_scope(entry: Json, site_id: str | None, ledger: Ledger, caller: Caller) -> None:
    new_site = entry["kind"] == "site" and not entry["base"]
    if caller.sites is None or new_site or site_id in ledger.fresh_sites:
        return
    touched = [site_id, *(ledger.known[base].site_id for base in entry["base"])]
    if not all(caller.sees(site) for site in touched):
        raise Refused("foreign_site", f"{caller.author} does not work at the site of this entry.")
