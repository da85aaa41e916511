"""A gate: needs with what meets them, blocks, and the people who passed one with a reason."""

from ..kinds import Any, Json
from ..say import say


class Need:
    """Something that must be known. met_by: the reading's id, "sign:…", "event:…", "photo:…" or "action:…"; None unmet.

    name: what an override names (the point's name will do too). point: what to measure, "" when it is no measurement.
    """

    def __init__(self, name: str, point: str, met_by: "str | None", values: "Json | None" = None) -> None:
        self.name = name
        self.point = point
        self.met_by = met_by
        self.values = values or {}
        self.key = "need." + name
        self.overridable = True


class Block:
    """Something that shuts a gate. by: the reading or sign that shows it."""

    def __init__(self, name: str, by: str, overridable: bool = True, words: str = "") -> None:
        self.name = name
        self.by = by
        self.overridable = overridable
        self.key = "block." + (words or name)


class Gate:
    """One gate with its needs and blocks. barred: nothing of it may be passed by a person just now."""

    def __init__(
        self, name: str, needs: "list[Need]", blocks: "list[Block]", overrides: "list[Json]", barred: bool
    ) -> None:
        self.name = name
        self.needs = needs
        self.blocks = blocks
        self.overrides = overrides
        self.barred = barred
        self.passed: "list[Json]" = []
        self.against: "list[Json]" = []
        self.unmet = [
            need for need in needs if need.met_by is None and not self._passed(need.name, need.point, need.overridable)
        ]
        self.shut = [block for block in blocks if not self._passed(block.name, "", block.overridable)]
        self.open = not self.unmet and not self.shut

    def _passed(self, name: str, point: str, overridable: bool) -> bool:
        """Return whether a person passed it; where that can't be, only remember that it was tried."""
        for override in self.overrides:
            if override["need"] not in (name, point or name):
                continue
            if overridable and not self.barred:
                if override not in self.passed:
                    self.passed.append(override)
                return True
            if override not in self.against:
                self.against.append(override)
        return False

    def as_json(self, language: str) -> Json:
        """Return the gate as the contract tells it."""
        return {
            "open": self.open,
            "needs": [need.point or need.name for need in self.unmet],
            "blocked_by": [block.name for block in self.shut],
            "overridden": _person(self.passed[0], language) if self.passed else None,
            "overrides": [_person(one, language) for one in self.passed],
            "started_against": [_person(one, language, "gate.against") for one in self.against],
            "unmet": [self._need_json(need, language) for need in self.unmet],
            "met": [self._need_json(need, language) for need in self.needs if need.met_by is not None],
            "blocks": [self._block_json(block, language) for block in self.shut],
        }

    def _need_json(self, need: Need, language: str) -> Json:
        return {
            "need": need.name,
            "point": need.point or None,
            "text": say(need.key, need.values, language),
            "met_by": need.met_by,
            "overridable": need.overridable and not self.barred,
        }

    def _block_json(self, block: Block, language: str) -> Json:
        return {
            "block": block.name,
            "text": say(block.key, {"check": block.name}, language),
            "by": block.by or None,
            "overridable": block.overridable and not self.barred,
        }


def _person(override: Json, language: str, key: str = "gate.passed") -> Json:
    told: Json = {name: override.get(name) for name in ("need", "reason", "by", "at")}
    told["text"] = say(key, override, language)
    return told


def overrides_of(overrides: "list[Json]", gates: "tuple[str, ...]") -> "list[Any]":
    """Return the overrides given for some gates, in the order of time and name."""
    found = [one for one in overrides if one["gate"] in gates]
    return sorted(found, key=lambda one: (str(one.get("at") or ""), one["need"], one["by"], one["reason"]))
