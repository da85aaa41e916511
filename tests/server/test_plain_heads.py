"""The short look at the head of an entry: it passes nothing that the forms would not."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from rackside.sync import forms
from rackside.sync.fields import HEAD, KINDS
from rackside.sync.plain import is_plain_head

AN_ID = "0d3f6f0e-32f4-4a8e-9d4f-2b3c4d5e6f70"
GOOD = {"id": AN_ID, "schema": 1, "kind": "reading", "call": AN_ID, "base": [], "device": AN_ID, "author": "A"}
PLAIN = GOOD | {"made_at": "2026-10-14T21:40:00-05:00", "body": {}}
ANY = st.none() | st.integers() | st.floats() | st.text(max_size=8) | st.lists(st.text(max_size=4), max_size=2)
ODD = ANY | st.sampled_from([{}, True, 1.0, AN_ID, AN_ID.upper(), [AN_ID], *KINDS, "2026-02-30T00:00:00Z", "x" * 5000])


@given(
    st.dictionaries(st.sampled_from([*PLAIN, "more"]), ODD, max_size=3),
    st.sets(st.sampled_from(list(PLAIN)), max_size=1),
)
def test_the_short_look_at_a_head_passes_nothing_the_forms_would_not(odd: dict[str, Any], left_out: set[str]) -> None:
    entry = {name: value for name, value in (PLAIN | odd).items() if name not in left_out}
    if is_plain_head(entry):
        assert forms.every_head_fault(entry) == []


def test_the_short_look_knows_a_usual_head() -> None:
    assert is_plain_head(PLAIN) and forms.head_faults(PLAIN) == [] and set(PLAIN) == {name for name, _ in HEAD}
    assert not is_plain_head(PLAIN | {"schema": True}) and forms.head_faults(PLAIN | {"schema": True})
