"""A finding as a page shows it: words, numbers, limits and the drawing of its rail. Pure."""

from typing import Any

from rackside.reports import text
from rackside.reports.rails import rail_drawing

Json = dict[str, Any]
# When nothing stands out, what tells most about a machine.
TELLING = (
    "running_current_unbalance",
    "supply_voltage_unbalance",
    "insulation",
    "net_oil_pressure",
    "pole_drop",
    "winding_balance",
    "start_current",
    "supply_voltage_level",
)
URGENT = {"fail": 0, "cannot_tell": 1, "watch": 2, "pass": 3}


def shown(finding: Json) -> Json:
    """Return a finding with everything spelled out for a template."""
    title = text.name("check", finding["check"])
    value = _value(finding)
    legs = [_leg(leg, finding) for leg in finding.get("legs") or []]
    return {
        **finding,
        "title": title[:1].upper() + title[1:],
        "said_value": value,
        "word": text.VERDICT_WORDS[finding["verdict"]],
        "shown_legs": legs,
        "limit_lines": [_limit(limit) for limit in finding.get("limits") or []],
        "missing_names": [_missing(name) for name in finding.get("missing") or []],
        "rail": rail_drawing(finding) if _drawable(finding) else None,
        "label": _label(title, value, finding, legs),
    }


def by_urgency(round_: Json) -> tuple[list[Json], list[Json]]:
    """Return the findings of a round that carry their check, worst first, and the other readings."""
    worst_first = sorted(round_["findings"], key=lambda finding: URGENT[finding["verdict"]])
    others = [shown(finding) for finding in round_["findings"] if not finding.get("carries")]
    return [shown(finding) for finding in worst_first if finding.get("carries")], others


def carried(round_: Json) -> list[Json]:
    """Return the findings of a round that carry their check."""
    return [finding for finding in round_["findings"] if finding.get("carries")]


def pairs(result: Json) -> list[Json]:
    """Return each check's carrying finding as found and as left, worst first, then the most telling."""
    found, left = _by_check(result, "as_found", first=True), _by_check(result, "as_left", first=False)
    between = _by_check(result, "interim", first=False)
    checks = sorted({*found, *left, *between}, key=lambda check: _rank(check, found, left, between))
    return [_pair(check, found.get(check), between.get(check), left.get(check)) for check in checks]


def _pair(check: str, found: Json | None, between: Json | None, left: Json | None) -> Json:
    """Return a check's readings; `later` is one in between that stands for the last where none was read as left."""
    told = {"found": found, "between": between, "left": left}
    shown_ones = {title: shown(finding) if finding else None for title, finding in told.items()}
    decides = found is not None and between is not None and (_decides(between) or not _decides(found))
    later = shown_ones["between"] if decides and left is None else None
    return {"check": check, "title": text.name("check", check).capitalize(), "later": later, **shown_ones}


def _decides(finding: Json) -> bool:
    return bool(finding["verdict"] != "cannot_tell")


def measured(compared: list[Json]) -> tuple[list[Json], list[str]]:
    """Part what was judged, numbers first, from the names of the checks that could not be judged at all."""
    told = [pair for pair in compared if any(one and _tells(one) for one in _sides(pair))]
    told.sort(key=lambda pair: all(one is None or one["value"] is None for one in _sides(pair)))
    return told, [pair["title"] for pair in compared if pair not in told]


def parted(compared: list[Json]) -> tuple[list[Json], list[Json]]:
    """Part the pairs that did not pass in some round from those that passed in all."""
    quiet = [pair for pair in compared if all(one is None or one["verdict"] == "pass" for one in _sides(pair))]
    return [pair for pair in compared if pair not in quiet], quiet


def last_not_passed(compared: list[Json]) -> list[Json]:
    """Return what the last reading of each check still says that is not a pass."""
    last = [pair["left"] or pair["later"] or pair["found"] or pair["between"] for pair in compared]
    return [finding for finding in last if finding["verdict"] != "pass"]


def _tells(finding: Json) -> bool:
    return finding["value"] is not None or finding["verdict"] != "cannot_tell"


def _sides(pair: Json) -> tuple[Json | None, ...]:
    return pair["found"], pair["between"], pair["left"]


def _by_check(result: Json, label: str, first: bool) -> dict[str, Json]:
    chosen: dict[str, Json] = {}
    for round_ in result["rounds"]:
        for finding in carried(round_) if round_["label"] == label else ():
            if not (first and finding["check"] in chosen):
                chosen[finding["check"]] = finding
    return chosen


def _rank(check: str, *rounds: dict[str, Json]) -> tuple[int, int, str]:
    worst = min(URGENT[round_[check]["verdict"]] for round_ in rounds if check in round_)
    return worst, telling(check), check


def telling(check: str) -> int:
    """Return how early a check is told where nothing stands out."""
    return TELLING.index(check) if check in TELLING else len(TELLING)


def _value(finding: Json) -> str:
    if finding.get("value") is None:
        return ""
    bound: str = (finding.get("detail") or {}).get("bound", "")
    if bound == "OL":
        return "over limit"
    spread, unit = finding.get("uncertainty"), finding.get("unit")
    if not spread or bound:
        return bound + text.number(finding["value"], unit)
    return f"{text.number(finding['value'])} ± {text.number(float(f'{spread:.2g}'), unit)}"


def _leg(leg: Json, finding: Json) -> Json:
    more = ""
    if leg.get("deviation") is not None:
        more = f"{'+' if leg['deviation'] > 0 else ''}{text.number(leg['deviation'], leg.get('deviation_unit'))}"
    verdict = leg.get("verdict") or finding["verdict"]
    value = text.number(leg.get("value"), leg.get("unit"))
    return {"name": leg["leg"], "value": value, "more": more, "verdict": verdict, "word": text.VERDICT_WORDS[verdict]}


def _limit(limit: Json) -> Json:
    return {
        "words": text.limit_words(limit),
        "when": limit.get("when", ""),
        "source": text.source_words(limit.get("source") or {}),
    }


def _missing(name: str) -> str:
    point, _, leg = name.partition(" ")
    if point == "machine":
        return text.name("plate", leg.replace(" ", "."))
    return f"{text.name('point', point).replace('_', ' ')} {leg}".strip()


def _drawable(finding: Json) -> bool:
    return bool(finding.get("legs")) or finding.get("value") is not None


def _label(title: str, value: str, finding: Json, legs: list[Json]) -> str:
    """Return the rail in words, for ears."""
    spoken = "; ".join(
        ", ".join(filter(None, (f"{leg['name']} {leg['value']}", leg["more"], leg["word"]))) for leg in legs
    )
    whole = spoken or f"{value}, {text.VERDICT_WORDS[finding['verdict']]}"
    band = ", ".join(text.limit_words(limit) for limit in finding.get("limits") or [])
    return f"{title}: {whole}. Limits: {band}." if band else f"{title}: {whole}."
