"""Every operation, tried by its description as each role: no failure, no undocumented status, no answer off schema."""

import json
from pathlib import Path
from typing import Any

import httpx
import pytest

from tests.server.fuzzing import ROLES, caller, fuzz, prepare
from tests.server.house import House

FEW = ("--phases", "examples,fuzzing,stateful", "--max-examples", "4")
REACHED = {
    "technician": {("GET", "/calls"), ("POST", "/analyse"), ("POST", "/entries"), ("GET", "/results")},
    "office": {("GET", "/calls"), ("GET", "/results.csv"), ("POST", "/import/sites")},
    "admin": {("GET", "/webhooks"), ("POST", "/people"), ("POST", "/keys"), ("GET", "/devices")},
    "key": {("POST", "/entries"), ("GET", "/machines")},
    "nobody": {("GET", "/health"), ("GET", "/vocabulary")},
}


@pytest.mark.parametrize("role", ROLES)
def test_no_answer_is_a_surprise(small_house: House, tmp_path: Path, role: str) -> None:
    prepare(small_house)
    found = fuzz(small_house, tmp_path, caller(small_house, role), *FEW)
    assert found.passed, found.output
    taken = {(method, path) for method, path, status in found.answers if status < 300}
    assert REACHED[role] <= taken, sorted(taken)
    assert len({(method, path.split("/")[1]) for method, path, _ in found.answers}) >= 25


def document(house: House) -> dict[str, Any]:
    return httpx.get(f"{house.url}/api/v1/openapi.json", trust_env=False).json()


@pytest.mark.parametrize("fault", ["status", "schema"])
def test_a_surprise_would_be_seen(small_house: House, tmp_path: Path, fault: str) -> None:
    told = document(small_house)
    answers = told["paths"]["/api/v1/health"]["get"]["responses"]
    if fault == "status":
        answers["299"] = answers.pop("200")
    else:
        told["components"]["schemas"]["Health"]["properties"]["epoch"] = {"type": "integer"}
    (tmp_path / "document.json").write_text(json.dumps(told))
    only = ("--phases", "fuzzing", "--max-examples", "1", "--include-path", "/api/v1/health")
    found = fuzz(small_house, tmp_path, None, *only, document=tmp_path / "document.json")
    assert not found.passed
    assert "Undocumented status code" in found.output or "violates schema" in found.output, found.output
