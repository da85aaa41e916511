"""Ids, times and heads of entries as nearly all are written. Pure."""

import re
from datetime import datetime
from functools import lru_cache
from operator import itemgetter
from typing import Any

from rackside.sync.fields import HEAD, KINDS, SCHEMAS

UUID = re.compile(r"[0-9a-fA-F]{8}(-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}")
TIME = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?(Z|[+-]\d\d:\d\d)", re.ASCII)


# The entries of a batch name the same call, round and device over and over.
REMEMBERED = 4096
UUID_LENGTH, LONGEST_TIME, LONGEST_NAME = 36, 32, 200
_members = itemgetter("id", "call", "device", "schema", "kind", "base", "made_at", "author", "body")


def is_id(value: Any) -> bool:
    return isinstance(value, str) and len(value) == UUID_LENGTH and _is_uuid(value)


def is_plain_time(value: Any) -> bool:
    """Return whether a time is written the usual way; the engine decides about the others."""
    return isinstance(value, str) and len(value) <= LONGEST_TIME and _is_usual_time(value)


def is_plain_head(entry: dict[str, Any]) -> bool:
    """Return whether an entry is a first one with the usual head; the forms decide about any other."""
    if len(entry) != len(HEAD):
        return False
    try:
        entry_id, call, device, schema, kind, base, made_at, author, body = _members(entry)
    except KeyError:
        return False
    usual = type(schema) is int and schema in SCHEMAS and kind in KINDS and base == [] and type(body) is dict
    named = is_id(entry_id) and is_id(call) and is_id(device) and is_plain_time(made_at)
    return usual and named and type(author) is str and len(author) <= LONGEST_NAME


@lru_cache(REMEMBERED)
def _is_uuid(text: str) -> bool:
    return UUID.fullmatch(text) is not None


@lru_cache(REMEMBERED)
def _is_usual_time(text: str) -> bool:
    if TIME.fullmatch(text) is None:
        return False
    try:
        datetime.fromisoformat(text)
    except ValueError:
        return False
    return True
