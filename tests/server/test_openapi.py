"""The API describes itself: every operation, every parameter, and how it refuses."""

from typing import Any

import pytest

from rackside.api.errors import CODES
from rackside.sync.fields import KINDS
from tests.server.house import House

CONTRACT = """
GET /vocabulary
POST /devices
DELETE /devices/{device_id}
GET /me
POST /analyse
POST /entries
GET /entries
PUT /photos/{sha256}
GET /photos/{sha256}
GET /calls
GET /calls/{call_id}
GET /calls/{call_id}/case
GET /calls/{call_id}/results
GET /calls/{call_id}/results.csv
GET /calls/{call_id}/report.html
GET /calls/{call_id}/report.pdf
POST /calls/{call_id}/judgements
POST /calls/{call_id}/reviews
GET /machines
GET /machines/{machine_id}
GET /machines/{machine_id}/trends
GET /health
"""


@pytest.fixture
def described(small_house: House) -> dict[str, Any]:
    with small_house.client() as nobody:
        return nobody.get("/api/v1/openapi.json").json()


def operations(described: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {
        f"{method.upper()} {path.removeprefix('/api/v1')}": operation
        for path, methods in described["paths"].items()
        for method, operation in methods.items()
    }


def test_every_request_of_the_contract_is_described(described: dict[str, Any]) -> None:
    assert described["openapi"].startswith("3.1")
    assert set(CONTRACT.split("\n")) - {""} <= set(operations(described))


def test_every_operation_says_what_it_does_and_how_it_refuses(described: dict[str, Any]) -> None:
    for name, operation in operations(described).items():
        assert operation["summary"], name
        assert "application/problem+json" in operation["responses"]["4XX"]["content"], name
        for parameter in operation.get("parameters", []):
            assert parameter["in"] == "path" or parameter["description"], f"{name} {parameter['name']}"


def test_the_vocabulary_lists_every_error_code_and_entry_kind(small_house: House) -> None:
    with small_house.client() as nobody:
        words = nobody.get("/api/v1/vocabulary").json()
    assert {code["code"] for code in words["error_codes"]} == set(CODES)
    assert set(words["entry_kinds"]) == set(KINDS)
