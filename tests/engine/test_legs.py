"""Each leg of a finding tells how far it stands off what it is held against; docs/rail.md lists what that is."""

from typing import Any

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs
from tests.engine.judging import case_of, described, finding, judge_case

# Held against nothing at all: the value is its own deviation.
WITHOUT = ("absence_test",)
AMPS = legs("running_current", "30", "33", "36")


def worked(example: dict[str, Any], check: str) -> dict[str, Any]:
    more = {key: example[key] for key in ("signs", "history", "neighbours", "events", "actions") if key in example}
    return finding(judge_case(case_of(example.get("machine", {}), example["readings"], **more)), check)


def test_every_leg_of_every_worked_example_has_its_deviation() -> None:
    examples = {told["check"]: worked(told["example"], told["check"]) for told in described()["checks"]}
    legged = {check for check, told in examples.items() if told["legs"]}
    assert len(legged) >= 16
    for check in legged - set(WITHOUT):
        for leg in examples[check]["legs"]:
            assert isinstance(leg["deviation"], float) and leg["deviation_unit"], (check, leg)
    for check in WITHOUT:
        assert all("deviation" not in leg for leg in examples[check]["legs"])


@pytest.mark.parametrize(
    ("check", "readings", "deviations"),
    [
        ("pole_drop", (legs("pole_drop", "30", "33", "72"), AMPS), (-25.0, -25.0, 50.0)),
        ("joint_drop", (legs("joint_drop", "3", "3.3", "7.2"), AMPS), (-25.0, -25.0, 50.0)),
        ("fuse_drop", (legs("fuse_drop", "20", "25", "30"),), (-20.0, 0.0, 20.0)),
        ("single_phasing", (legs("running_current", "20", "30", "30"),), (-100 / 3, 20.0, 20.0)),
        ("winding_ground", (legs("winding_ground_resistance", "1", "2", "3", unit="Mohm"),), (-50.0, 0.0, 50.0)),
    ],
)
def test_from_the_mean_of_its_fellows(check: str, readings: Any, deviations: tuple[float, ...]) -> None:
    told = found(check, *readings)["legs"]
    assert [leg["deviation"] for leg in told] == pytest.approx(deviations)
    assert {leg["deviation_unit"] for leg in told} == {"%"}


def test_from_the_plate() -> None:
    rated = MACHINE["rated_load_current"]
    amps = legs("running_current", f"{rated * 0.9:.2f}", f"{rated:.2f}", f"{rated * 1.1:.2f}")
    told = found("running_current_level", amps)["legs"]
    assert [leg["deviation"] for leg in told] == pytest.approx([-10, 0, 10], abs=0.1)
    assert [leg["judged"] for leg in told] == pytest.approx([90, 100, 110], abs=0.1)


def test_no_mean_without_three_numbers() -> None:
    ground = found("winding_ground", legs("winding_ground_resistance", "1", "OL", "3", unit="Mohm"))
    opened = found("winding_balance", legs("winding_resistance", "0.5", "OL", "0.5", leads="off"))
    assert all("deviation" not in leg for leg in ground["legs"] + opened["legs"])
