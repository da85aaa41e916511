"""A check in words: the record the page uses, printed."""

from typing import Any


def explained(name: str, words: dict[str, Any]) -> str | None:
    """Return formula, limits, sources and worked example of a check, None when there is no such check."""
    found = [check for check in words["checks"] if check["check"] == name]
    if not found:
        return None
    check = found[0]
    lines = [f"{check['check']}: {check['title']}", f"Reads: {', '.join(check['reads'])}", f"Value: {check['formula']}"]
    lines += ["Limits:", *(f"  {_limit(limit)}" for limit in check["limits"])]
    lines += ["Sources:", *(f"  {_source(source)}" for source in check["sources"])]
    return "\n".join([*lines, *_example(check.get("example"), check["unit"])])


def _limit(limit: dict[str, Any]) -> str:
    bounds = [
        f"{side} {limit[side]:g} {limit.get('unit') or ''}".strip() for side in ("below", "above") if side in limit
    ]
    when = f" ({limit['when']})" if limit.get("when") else ""
    return f"{limit['verdict']} {' or '.join(bounds)}{when}: {_source(limit['source'])}"


def _source(source: dict[str, Any]) -> str:
    named = " ".join(source[part] for part in ("work", "clause", "edition") if source.get(part))
    return f"{named} [{source['status']}]"


def _example(example: dict[str, Any] | None, unit: str) -> list[str]:
    if not example:
        return []
    lines = ["Worked example:"]
    if example.get("machine"):
        lines.append(f"  machine: {_members(example['machine'])}")
    for reading in example.get("readings") or []:
        told = {member: value for member, value in reading.items() if member != "point"}
        lines.append(f"  {reading['point']}: {_members(told)}")
    value = example.get("value")
    gives = example["verdict"] if value is None else f"{value:.6g} {example.get('unit', unit)}, {example['verdict']}"
    return [*lines, f"  gives {gives} ({example.get('source')})"]


def _members(told: dict[str, Any]) -> str:
    """Return the members of a case's part as one line: `L1 30, L2 31, L3 30; unit A; state running`."""
    return "; ".join(f"{name} {_plain(value)}" if name != "legs" else _plain(value) for name, value in told.items())


def _plain(value: Any) -> str:
    if isinstance(value, dict):
        return ", ".join(f"{name} {_plain(one)}" for name, one in value.items())
    if isinstance(value, list):
        return ", ".join(_plain(one) for one in value)
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)
