"""Ask the engine, as the server's host and the phone's worker do: text in, text out."""

import json
from typing import Any

from rackside import host
from rackside.engine import entry

CHECKS = list(host.checks())
entry.load(CHECKS, host.digest())


def described(language: str = "en") -> dict[str, Any]:
    told: dict[str, Any] = json.loads(entry.describe(language))
    return told


def judge_case(case: Any, language: str = "en") -> dict[str, Any]:
    told: dict[str, Any] = json.loads(entry.judge(json.dumps(case), language))
    return told


def case_of(machine: dict[str, Any], readings: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    """Return a case with one as-found round; readings without an id are numbered."""
    numbered = [{"id": f"r{index}", **reading} for index, reading in enumerate(readings, 1)]
    return {"machine": machine, "rounds": [{"label": "as_found", "readings": numbered}], **more}


def judge(machine: dict[str, Any], readings: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    result = judge_case(case_of(machine, readings, **more))
    assert "errors" not in result, result["errors"]
    return result


def findings(result: dict[str, Any], check: str) -> list[dict[str, Any]]:
    return [finding for round_ in result["rounds"] for finding in round_["findings"] if finding["check"] == check]


def finding(result: dict[str, Any], check: str) -> dict[str, Any]:
    """Return the one carrying finding of a check."""
    carrying = [found for found in findings(result, check) if found["carries"]]
    assert len(carrying) == 1, [found["check"] for round_ in result["rounds"] for found in round_["findings"]]
    return carrying[0]
