"""Server time, and times written by devices, in one comparable form."""

from datetime import UTC, datetime
from functools import lru_cache


def now() -> datetime:
    return datetime.now(UTC)


def written(moment: datetime) -> str:
    """Return UTC with microseconds: text of one width, so that it sorts as time."""
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def read(text: str) -> datetime:
    """Return the moment of an RFC 3339 time with offset."""
    moment = datetime.fromisoformat(text)
    if moment.tzinfo is None:
        raise ValueError("a time needs its offset, like 2026-10-14T21:40:00-05:00")
    return moment


@lru_cache(4096)
def sortable(text: str | None) -> str | None:
    """Return a device's time as UTC text that sorts, None when there is none or it can't be read."""
    if not text:
        return None
    try:
        return written(read(text))
    except (ValueError, OverflowError):
        return None
