"""The long run of schemathesis: every role, every phase, for about a minute each."""

from pathlib import Path

import pytest

from tests.server.conftest import quick_passwords as quick_passwords
from tests.server.conftest import small_house as small_house
from tests.server.fuzzing import ROLES, caller, fuzz, prepare
from tests.server.house import House

SECONDS = 60
MANY = ("--phases", "examples,coverage,fuzzing,stateful", "--max-examples", "100", "--max-time", str(SECONDS))


@pytest.mark.parametrize("role", ROLES)
def test_no_answer_is_a_surprise(small_house: House, tmp_path: Path, role: str) -> None:
    prepare(small_house)
    found = fuzz(small_house, tmp_path, caller(small_house, role), *MANY)
    print(f"\n{role}: {len(found.answers)} requests, statuses {sorted({status for *_, status in found.answers})}")
    assert found.passed, found.output
