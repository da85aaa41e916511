"""A tested budget: a healthy machine of any kind shows no watch and no fail anywhere."""

from collections.abc import Callable
from typing import Any

import pytest

from tests.engine.healthy import KINDS
from tests.engine.judging import CHECKS, judge_case


@pytest.mark.parametrize("kind", KINDS, ids=[kind.__name__ for kind in KINDS])
def test_a_healthy_machine_is_left_in_peace(kind: Callable[[], dict[str, Any]]) -> None:
    result = judge_case(kind())
    assert "errors" not in result, result["errors"]
    findings = result["rounds"][0]["findings"]
    alarms = [
        (told["check"], told["verdict"], told["because"]) for told in findings if told["verdict"] in ("watch", "fail")
    ]
    assert alarms == []
    assert len([told for told in findings if told["verdict"] == "pass"]) >= 10


def test_healthy_machines_meet_every_check() -> None:
    """A check no healthy machine ever passes could be one that cries wolf."""
    passed = {
        told["check"]
        for kind in KINDS
        for told in judge_case(kind())["rounds"][0]["findings"]
        if told["verdict"] == "pass"
    }
    never_asked = {
        "lead_roll",
        "winding_ground",
        "joint_drop",
        "control_chain",
        "insulation_change",
        "insulation_ratio",
    }
    never_asked |= {"current_against_expected", "cable_insulation"}
    assert set(CHECKS) - passed <= never_asked
