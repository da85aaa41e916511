"""The one text of a value: members sorted, no spaces, characters as they are. Pure."""

import json
from collections.abc import Iterable
from typing import Any

import orjson

_by_standard = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False).encode
PLAIN = {str, int, bool, type(None)}


def canonical(value: Any) -> str:
    """Return the text by which an entry's content is hashed and its repeats are told.

    It is what the standard library writes. The fast writer is asked only for what both write alike: no fractions, no
    whole numbers beyond 64 bits. ValueError: NaN or infinity. RecursionError: nested too deep.
    """
    if not _alike([value]):
        return _by_standard(value)
    try:
        return orjson.dumps(value, option=orjson.OPT_SORT_KEYS).decode()
    except orjson.JSONEncodeError:
        return _by_standard(value)


def _alike(values: Iterable[Any]) -> bool:
    for one in values:
        kind = type(one)
        if kind in PLAIN:
            continue
        if kind is not dict and kind is not list:
            return False
        if not _alike(one.values() if kind is dict else one):
            return False
    return True
