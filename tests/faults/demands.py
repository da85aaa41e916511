"""What must hold once all is quiet: of the model's runs and of the nights in real browsers alike."""

from collections.abc import Mapping
from typing import Any

from rackside.records import Database, projection
from tests.faults.replica import content

Json = dict[str, Any]


def nothing_lost_doubled_or_changed(
    held: list[Json], kept: Mapping[str, Json], sure: set[str], maybe: set[str]
) -> None:
    """`kept` was said to be safe on a phone; `sure` were answered to the office, `maybe` it never heard of."""
    ids = [entry["id"] for entry in held]
    assert len(ids) == len(set(ids)), "no entry is there twice"
    lost = kept.keys() - set(ids)
    assert not lost, f"{len(lost)} of {len(kept)} entries acknowledged to a person are lost"
    assert sure <= set(ids), "a review is lost"
    assert set(ids) <= kept.keys() | sure | maybe, "nobody made this entry"
    changed = [entry["id"] for entry in held if entry["id"] in kept and content(entry) != content(kept[entry["id"]])]
    assert not changed, "an entry was changed on the way"


def no_gap(held: list[Json]) -> None:
    assert [entry["cursor"] for entry in held] == list(range(1, len(held) + 1)), "the log has no gap"


def tables_follow_from_the_log(database: Database) -> None:
    with database.writing() as connection:
        before = projection.fingerprint(connection)
        projection.rebuild(connection)
        assert projection.fingerprint(connection) == before, "the tables rebuilt from the log are the same"
