"""Numbers, times and names as they stand on a page. Pure."""

from datetime import datetime, tzinfo
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from rackside.engine.say import figure, title

VERDICT_WORDS = {"pass": "pass", "watch": "watch", "fail": "fail", "cannot_tell": "cannot tell"}
LABEL_WORDS = {"as_found": "as found", "interim": "in between", "as_left": "as left"}
DECISION_WORDS = {
    "restart": "Restarted",
    "repair": "Repaired",
    "run_under_watch": "Running under watch",
    "condemn": "Condemned",
    "no_fault_found": "No fault found",
}
STATUS_WORDS = {
    "published": "published",
    "common practice": "common practice",
    "from memory": "from memory, not yet confirmed",
}


def number(value: Any, unit: str | None = None) -> str:
    """Return a number with its unit; text as read stays as it is, nothing becomes a dash."""
    if value is None:
        return "–"
    spoken = figure(value) if isinstance(value, int | float) and not isinstance(value, bool) else str(value)
    return f"{spoken} {title('unit', unit, 'en')}" if unit else spoken


def name(kind: str, word: str | None) -> str:
    """Return what people call a check, point, cause, sign, unit or state."""
    return title(kind, word, "en") if word else ""


def zone(site: dict[str, Any]) -> tzinfo | None:
    """Return the site's time zone, None when it has none that is known here."""
    try:
        return ZoneInfo(site["time_zone"]) if site.get("time_zone") else None
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return None


def moment(text: str | None, where: tzinfo | None, form: str = "%d %b %Y %H:%M") -> str:
    """Return a time at the site; a text that is no time stays as it is."""
    if not text:
        return ""
    try:
        at = datetime.fromisoformat(text)
        return (at.astimezone(where) if where else at).strftime(form)
    except (ValueError, OverflowError):
        return text


def zone_words(site: dict[str, Any]) -> str:
    """Return which clock the times on a page follow."""
    known = zone(site)
    if known is not None:
        return f"All times: {site['time_zone']}, the site's clock."
    return "All times as written by the phone; the site has no time zone set."


def file_clock(site: dict[str, Any]) -> str:
    """Return which clock the times of a data file follow."""
    known = f"the site's clock is {site['time_zone']}" if zone(site) else "the site has no time zone set"
    return f"Times are as written, each with its own offset; {known}."


def limit_words(limit: dict[str, Any]) -> str:
    """Return a limit as words: `watch above 1 %`."""
    sides = [side for side in ("below", "above") if limit.get(side) is not None]
    told = [f"{side} {number(limit[side], limit.get('unit'))}" for side in sides]
    return f"{VERDICT_WORDS[limit['verdict']]} {' or '.join(told)}"


def source_words(source: dict[str, Any]) -> str:
    """Return where a limit comes from, and how surely that is known."""
    cited = ", ".join(part for part in (source.get("work"), source.get("clause"), source.get("edition")) if part)
    status = STATUS_WORDS.get(source.get("status", ""), source.get("status", ""))
    return f"{cited} ({status})" if status and not cited.startswith(status) else cited
