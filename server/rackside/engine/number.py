"""Turn a value as it was read into a number that remembers its digits."""

import math

from .kinds import Any

DIGITS = "0123456789"
OVER_LIMIT = "OL"


class Number:
    """A value as read: its number, the weight of its last digit, and whether it is a bound.

    value: the number, in the unit it was read in; 0 for OL.
    step: weight of the last digit shown (0.01 for "0.70").
    bound: "" exact, ">" at least, "<" at most, "OL" over the meter's limit.
    """

    def __init__(self, value: float, step: float, bound: str) -> None:
        self.value = value
        self.step = step
        self.bound = bound


def read_number(raw: Any) -> "Number | None":
    """Return the Number in text or in a JSON number, or None when it is neither.

    Text is ASCII `[<>]?[+-]?digits[.digits]` or `OL`; a JSON number counts as its shortest decimal.
    """
    if isinstance(raw, bool):
        return None
    if isinstance(raw, (int, float)):
        return _from_json_number(raw)
    if isinstance(raw, str):
        return _from_text(raw)
    return None


def _from_json_number(raw: float) -> "Number | None":
    try:
        value = float(raw)
    except OverflowError:
        return None
    if not math.isfinite(value):
        return None
    return Number(value, 1.0 / 10 ** decimals_of(value), "")


def decimals_of(value: float) -> int:
    """Return how many decimals the shortest decimal form of a finite value has (17 at most)."""
    size = abs(value)
    for decimals in range(18):
        power = 10**decimals
        if math.floor(size * power + 0.5) / power == size:
            return decimals
    return 17


def _from_text(raw: str) -> "Number | None":
    if raw == OVER_LIMIT:
        return Number(0.0, 0.0, OVER_LIMIT)
    bound = raw[0] if raw[:1] in ("<", ">") else ""
    body = raw[len(bound) :]
    digits = body[1:] if body[:1] in ("+", "-") else body
    whole, dot, part = digits.partition(".")
    if not _all_digits(whole) or (dot and not _all_digits(part)) or len(body) > 40:
        return None
    return Number(float(body), 1.0 / 10 ** len(part), bound)


def _all_digits(text: str) -> bool:
    for letter in text:
        if letter not in DIGITS:
            return False
    return text != ""
