"""Any order of keeping, sending, breaking and restoring ends with every entry present once, on both databases."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest

from rackside.access import people
from rackside.records import Database
from tests.faults import mutants
from tests.faults.running import examples, run_model


class NoHash:
    """Nobody signs in with a password here; hashing one is slow on purpose."""

    def hash(self, password: str) -> str:
        return "no hash"


@pytest.fixture(autouse=True)
def no_passwords(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(people, "_hasher", NoHash)


@contextmanager
def opened(url: str) -> Iterator[Database]:
    database = Database(url)
    database.migrate()
    yield database
    database.close()


def test_nothing_is_lost_doubled_or_changed(database_url: str) -> None:
    with opened(database_url) as database:
        done = run_model(database, examples(quick=15, thorough=150))
    print(f"\n{done}")
    assert done.entries > 0


BROKEN = [
    (mutants.drops_operation_ids, "no entry is there twice"),
    (mutants.takes_cursors_from_a_sequence, "phone and server hold the same"),
    (mutants.acknowledges_before_commit, "lost|phone and server hold the same"),
    (mutants.advances_the_cursor_early, "phone and server hold the same"),
]


@pytest.mark.parametrize(("mutant", "told"), BROKEN, ids=[mutant.__name__ for mutant, _ in BROKEN])
@pytest.mark.parametrize("url", ["sqlite_url", "postgres_url"][: examples(quick=1, thorough=2)])
def test_a_broken_one_is_found_out(request: pytest.FixtureRequest, url: str, mutant: Any, told: str) -> None:
    """The same runs, with one promise of the server or the phone broken on purpose."""
    with (
        opened(request.getfixturevalue(url)) as database,
        mutant(database) as end,
        pytest.raises(AssertionError, match=told),
    ):
        run_model(database, 300, at_restart=end, gaps_allowed=True)
