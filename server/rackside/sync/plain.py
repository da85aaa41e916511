"""Ids and times as nearly all are written. Pure."""

import re
from datetime import datetime
from typing import Any

UUID = re.compile(r"[0-9a-fA-F]{8}(-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}")
TIME = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?(Z|[+-]\d\d:\d\d)", re.ASCII)


def is_id(value: Any) -> bool:
    return isinstance(value, str) and UUID.fullmatch(value) is not None


def is_plain_time(value: Any) -> bool:
    """Return whether a time is written the usual way; the engine decides about the others."""
    if not isinstance(value, str) or TIME.fullmatch(value) is None:
        return False
    try:
        datetime.fromisoformat(value)
    except ValueError:
        return False
    return True
