"""A machine's own limit of one check, from its bulletin. Pure."""

import re
from typing import Any

Json = dict[str, Any]
NUMBER = re.compile(r"-?\d{1,9}(\.\d{1,9})?")
EDGES = tuple((verdict, side) for verdict in ("watch", "fail") for side in ("below", "above"))


def lines(limits: Json) -> list[Json]:
    """Return the limits a machine has, by check."""
    return [{"check": check, **limits[check]} for check in sorted(limits)]


def read(form: dict[str, str], checks: dict[str, str]) -> tuple[str, Json, list[str]]:
    """Return the check, its limit and what is wrong with it; `checks` gives each check's unit."""
    check, source = form.get("check", ""), " ".join(form.get("source", "").split())
    limit: Json = {"unit": checks.get(check, ""), "source": source}
    faults = [] if check in checks else ["Choose the check that the limit is for."]
    for verdict, side in EDGES:
        typed = form.get(f"{verdict}_{side}", "").strip()
        if typed and not NUMBER.fullmatch(typed):
            faults.append(f"{verdict} {side}: {typed!r} is no number.")
        elif typed:
            limit.setdefault(verdict, {})[side] = float(typed)
    if not faults and not {"watch", "fail"} & {*limit}:
        faults.append("Give at least one number: watch or fail, below or above.")
    if not source:
        faults.append("Say where the number stands: the bulletin, its page or date.")
    return check, limit, faults + _order_faults(limit)


def _order_faults(limit: Json) -> list[str]:
    watch, fail = limit.get("watch") or {}, limit.get("fail") or {}
    faults = []
    if "above" in watch and "above" in fail and watch["above"] > fail["above"]:
        faults.append("The watch limit above lies beyond the fail limit above.")
    if "below" in watch and "below" in fail and watch["below"] < fail["below"]:
        faults.append("The watch limit below lies beyond the fail limit below.")
    return faults
