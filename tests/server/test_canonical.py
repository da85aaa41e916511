"""The text by which repeats are told: what the standard library writes, whichever writer wrote it."""

import json
import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rackside.records.canonical import canonical
from rackside.sync import forms
from rackside.sync.fields import HEAD, KINDS
from rackside.sync.forms import head_faults
from rackside.sync.plain import is_plain_head

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


AN_ID = "0d3f6f0e-32f4-4a8e-9d4f-2b3c4d5e6f70"
GOOD = {"id": AN_ID, "schema": 1, "kind": "reading", "call": AN_ID, "base": [], "device": AN_ID, "author": "A"}
PLAIN = GOOD | {"made_at": "2026-10-14T21:40:00-05:00", "body": {}}
ODD = JSON | st.sampled_from([True, 1.0, AN_ID, AN_ID.upper(), [AN_ID], *KINDS, "2026-02-30T00:00:00Z", "x" * 5000])


@given(
    st.dictionaries(st.sampled_from([*PLAIN, "more"]), ODD, max_size=3),
    st.sets(st.sampled_from(list(PLAIN)), max_size=1),
)
def test_the_short_look_at_a_head_passes_nothing_the_forms_would_not(odd: dict[str, Any], left_out: set[str]) -> None:
    entry = {name: value for name, value in (PLAIN | odd).items() if name not in left_out}
    if is_plain_head(entry):
        assert forms.every_head_fault(entry) == []


def test_the_short_look_knows_a_usual_head() -> None:
    assert is_plain_head(PLAIN) and head_faults(PLAIN) == [] and set(PLAIN) == {name for name, _ in HEAD}
    assert not is_plain_head(PLAIN | {"schema": True}) and head_faults(PLAIN | {"schema": True})
