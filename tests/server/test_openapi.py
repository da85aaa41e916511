"""The API describes itself: every operation, every parameter, every answer, and how it refuses."""

import json
import re
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import jsonschema_rs
import pytest

from rackside import host
from rackside.api.errors import CODES
from rackside.api.result_form import Result
from tests.engine.case_files import CASES
from tests.server.house import House, story

SHARED = Path(__file__).parents[3] / "shared" / "CONTRACT.md"
beside = pytest.mark.skipif(not SHARED.exists(), reason="the contract does not lie beside this checkout")
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
GET /webhooks
POST /webhooks
DELETE /webhooks/{webhook_id}
GET /health
"""
OPEN = ("GET /health", "GET /vocabulary", "POST /devices")


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


def test_every_operation_says_what_it_does_answers_and_takes(described: dict[str, Any]) -> None:
    for name, operation in operations(described).items():
        assert operation["summary"] and operation["description"], name
        assert {"500", "503"} <= set(operation["responses"]), name
        assert ("401" in operation["responses"]) is (name not in OPEN or name == "POST /devices"), name
        for parameter in operation.get("parameters", []):
            assert parameter["description"], f"{name} {parameter['name']}"
        for kind, content in operation.get("requestBody", {}).get("content", {}).items():
            assert "example" in content or kind.startswith("image/"), f"{name} {kind}"
        for status, response in operation["responses"].items():
            for kind, content in response.get("content", {}).items():
                assert content.get("schema") is not None, f"{name} {status} {kind}"


def test_every_refusal_names_its_codes(described: dict[str, Any]) -> None:
    named = set()
    for name, operation in operations(described).items():
        for status, response in operation["responses"].items():
            if status >= "400":
                content = response["content"]["application/problem+json"]
                codes = content["schema"]["allOf"][1]["properties"]["code"]["enum"]
                assert [CODES[code].status for code in codes] == [int(status)] * len(codes), name
                assert set(content["examples"]) == set(codes)
                named |= set(codes)
    per_entry = {"unknown_kind", "unknown_schema", "foreign_site", "forged_author"}
    assert set(CODES) - named <= per_entry | {"method_not_allowed"}


def test_the_document_is_one_and_its_examples_fit_their_schemas(described: dict[str, Any]) -> None:
    root = {"components": described["components"]}
    assert set(re.findall(r"#/components/schemas/(\w+)", json.dumps(described))) <= set(
        described["components"]["schemas"]
    )
    tried = 0
    for operation in [*operations(described).values(), *(one["post"] for one in described["webhooks"].values())]:
        for content in operation.get("requestBody", {}).get("content", {}).values():
            if "example" in content:
                jsonschema_rs.validate(root | content["schema"], content["example"])
                tried += 1
    assert tried >= 14


def test_what_phones_write_fits_the_schema_of_entries(small_house: House, described: dict[str, Any]) -> None:
    told = story(small_house.phone("T. Okafor"))
    root = {"components": described["components"], "$ref": "#/components/schemas/Entry"}
    for entry in told.entries:
        jsonschema_rs.validate(root, entry)
        assert not jsonschema_rs.is_valid(root, entry | {"body": entry["body"] | {"tpye": 1}})


@pytest.mark.parametrize("case", [case for _, case, *_ in CASES], ids=[name for name, *_ in CASES])
def test_every_result_has_the_form_that_is_described(described: dict[str, Any], case: Any) -> None:
    result = host.judge(case())
    Result.model_validate(result)
    root = {"components": described["components"]}
    jsonschema_rs.validate(root | {"$ref": "#/components/schemas/Result"}, result)
    jsonschema_rs.validate(root | {"$ref": "#/components/schemas/Case"}, case())


class Outside(HTMLParser):
    """Collects what a page would fetch or run."""

    def __init__(self) -> None:
        super().__init__()
        self.fetched: list[str] = []
        self.ran: list[str] = []

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        told = dict(attributes)
        self.fetched += [told["href"] or ""] if tag == "link" else []
        self.ran += [name for name in told if name.startswith("on") or name == "style"]
        self.ran += [tag] if tag in ("script", "iframe", "object", "style") else []


def test_the_reference_page_reads_without_a_network_or_a_script(small_house: House, described: dict[str, Any]) -> None:
    with small_house.client() as nobody:
        page = nobody.get("/api/v1/reference")
        found = Outside()
        found.feed(page.text)
        assert found.ran == []
        assert found.fetched
        assert [nobody.get(place).status_code for place in found.fetched] == [200] * len(found.fetched)
    for name, operation in operations(described).items():
        assert f'id="{operation["operationId"]}"' in page.text, name
    assert all(f"<code>{code}</code>" in page.text for code in CODES)
    named = set(re.findall(r'href="#schema-(\w+)"', page.text))
    assert named <= set(re.findall(r'id="schema-(\w+)"', page.text))
    assert {"Case", "Entry_call", "WholeCall"} <= named
    assert "open, submitted, returned, watching, accepted, closed; again for more" in page.text
    assert "a whole number, 1 to 500; 50 when not given" in page.text


@pytest.mark.parametrize(("method", "path", "status"), [("DELETE", "/nothing", 404), ("PUT", "/calls", 405)])
def test_a_wrong_method_is_told_from_a_wrong_address(small_house: House, method: str, path: str, status: int) -> None:
    with small_house.client() as nobody:
        assert nobody.request(method, f"/api/v1{path}").status_code == status


@pytest.mark.parametrize(
    "place",
    [
        "/calls?complaint=oil",
        "/calls?cause=oil",
        "/calls?sinse=7",
        "/results?sites=a",
        "/sites?limit=5",
        "/vocabulary?lang=en",
    ],
)
def test_a_filter_with_a_slip_of_the_pen_does_not_answer_everything(small_house: House, place: str) -> None:
    reader = small_house.key("reader", "read")
    answer = reader.http.get(f"/api/v1{place}")
    assert (answer.status_code, answer.json()["code"]) == (422, "invalid_query")
    [fault] = answer.json()["errors"]
    assert fault["pointer"] == "/" + place.split("?")[1].split("=")[0]
    assert "Known here: " in fault["detail"] or "Input should be" in fault["detail"]
