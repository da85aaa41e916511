"""The text by which repeats are told: what the standard library writes, whichever writer wrote it."""

import json
import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rackside.records.canonical import canonical

TEXT = st.text(st.characters(codec="utf-8"), max_size=8)
NUMBERS = st.integers() | st.floats(allow_nan=False, allow_infinity=False)
SCALARS = st.none() | st.booleans() | NUMBERS | TEXT
JSON = st.recursive(SCALARS, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXT, inner, max_size=4))


def by_standard(value: Any) -> str:
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


@given(JSON)
def test_it_is_what_the_standard_library_writes(value: Any) -> None:
    assert canonical(value) == by_standard(value)


@pytest.mark.parametrize(
    "value", [1e16, 1e-7, 5e-324, -0.0, 2**64, -(2**70), "\ud800", "\x7f\u2028é", {"b": 1, "a": [0.1]}]
)
def test_where_two_writers_could_differ(value: Any) -> None:
    assert canonical({"extra": [value]}) == by_standard({"extra": [value]})


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_refused_and_does_not_become_null(value: float) -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        canonical({"extra": {"deep": [value]}})


def test_too_deep_is_refused() -> None:
    nested: list[Any] = []
    for _ in range(100_000):
        nested = [nested]
    with pytest.raises(RecursionError):
        canonical(nested)
