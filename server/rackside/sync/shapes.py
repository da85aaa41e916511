"""The shape of a reading: its members and words without what was read.

Readings come by the thousand in few shapes. The engine looks at the first of each shape; the others differ only in
values, ids and times that are plain, about which it has nothing to say.
"""

from collections.abc import Callable
from typing import Any

from rackside.sync.plain import is_id, is_plain_time

MOST_SHAPES = 5000
LONGEST_TEXT = 4000
Shape = tuple[Any, ...]


def _is_short(value: str) -> bool:
    return len(value) <= LONGEST_TEXT


FREE: dict[str, Callable[[str], bool]] = {
    "round": is_id,
    "repeat_of": is_id,
    "at": is_plain_time,
    **dict.fromkeys(
        ("value", "at_30s", "at_600s", "known_source_before", "known_source_after", "by", "meter"), _is_short
    ),
}
_good: dict[Shape, None] = {}


def shape_of(body: dict[str, Any]) -> Shape | None:
    """Return a reading's shape, None when it has anything that must be looked at every time."""
    shape: list[Any] = []
    for name, value in body.items():
        if isinstance(value, str):
            plain = FREE.get(name)
            if plain is None:
                shape.append((name, value))
            elif plain(value):
                shape.append(name)
            else:
                return None
        elif name == "legs" and isinstance(value, dict) and all(isinstance(one, str) for one in value.values()):
            shape.append((name, *value))
        elif isinstance(value, bool):
            shape.append((name, value))
        else:
            return None
    return tuple(shape)


def known(shape: Shape) -> bool:
    """Return whether a reading of this shape was found well formed before."""
    return shape in _good


def remember(shape: Shape) -> None:
    """Keep a shape that the engine found well formed; when there are too many, begin again."""
    if len(_good) >= MOST_SHAPES:
        _good.clear()
    _good[shape] = None
