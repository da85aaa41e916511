"""Every example of the document, sent to a server with the demo: it is answered, and as the document shows."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import jsonschema_rs
import pytest

from rackside.api.examples import examples, request_line
from rackside.hooks.sending import Sender, Sent
from seed_demo import load
from tests.server.house import PASSWORD, House, running
from tests.server.replay import PICTURE, PICTURE_WORDS, Replay, unlike

Json = dict[str, Any]
ADMIN = "Demo admin"
ANEW = "say python -m tests.server.write_examples"


@pytest.fixture
def demo(sqlite_url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[House]:
    """The demo, with webhooks that lead to a receiver who takes everything."""
    monkeypatch.setattr(Sender, "send", lambda *_told: Sent(204, None))
    with running(sqlite_url, tmp_path) as house:
        house.person(ADMIN, "admin")
        load(house.url, ADMIN, PASSWORD)
        yield house


def test_every_example_is_answered_as_it_is_documented(demo: House) -> None:
    replay = Replay(demo, demo.sign_in(ADMIN))
    for example in examples():
        name = f"{example['method']} {example['path']}"
        answer = replay.ask(example)
        if answer.status_code == 503 and answer.json()["code"] == "report_engine_missing":
            continue
        assert answer.status_code == example["status"], f"{name}: {answer.text}"
        real = answer.json() if example.get("answer_type") == "application/json" else None
        assert found_in(example, answer, real) == [], f"{name}: {ANEW}"
        replay.learn(example, example.get("answer"), real)


def found_in(example: Json, answer: httpx.Response, real: Any) -> list[str]:
    """Return what is wrong with the documented answer."""
    if "answer" not in example:
        return ["there is a body"] if answer.content else []
    kind = answer.headers["content-type"].split(";")[0]
    if kind != example["answer_type"]:
        return [f"it is {kind}"]
    if real is not None:
        return unlike(example["answer"], real)
    if example["answer"] == PICTURE_WORDS:
        return [] if answer.content == PICTURE else ["it is another picture"]
    first = example["answer"].splitlines()[0].encode()
    return [] if answer.content.startswith(first[:8]) else ["it begins otherwise"]


def test_a_documented_answer_that_grew_old_would_be_seen() -> None:
    real = {"items": [{"id": "a", "changed": 7, "verdict": None}, {"id": "b", "changed": 8, "verdict": "pass"}]}
    assert unlike({"items": [{"id": "x", "changed": 1, "verdict": "fail"}]}, real) == []
    assert unlike({"items": [{"id": "x", "renamed": 1}]}, real) == ["/items/0/renamed"]
    assert unlike({"items": [{"id": "x", "changed": "1"}]}, real) == ["/items/0/changed: str, not number"]
    assert unlike({"items": [{"id": "x"}]}, {"items": []}) == ["/items/0: the list is empty"]


@pytest.fixture
def described(small_house: House) -> Json:
    with small_house.client() as nobody:
        told: Json = nobody.get("/api/v1/openapi.json").json()
    return told


def operations(described: Json) -> list[tuple[str, str, Json]]:
    return [
        (method.upper(), path, operation)
        for path, methods in described["paths"].items()
        for method, operation in methods.items()
    ]


def test_every_operation_has_an_example_of_its_request_and_its_answer(described: Json) -> None:
    for method, path, operation in operations(described):
        line = request_line(method, path, operation)
        assert "{" not in line, line
        for kind, content in operation.get("requestBody", {}).get("content", {}).items():
            assert "example" in content or kind in ("image/jpeg", "image/png"), f"{line} {kind}"
        shown = [
            "example" in content
            for status, response in operation["responses"].items()
            if status < "300"
            for content in response.get("content", {}).values()
        ]
        assert any(shown) or not shown, line


def test_every_documented_answer_fits_its_schema(described: Json) -> None:
    root = {"components": described["components"]}
    tried = 0
    for method, path, operation in operations(described):
        for status, response in operation["responses"].items():
            for content in response.get("content", {}).values():
                if status < "300" and "example" in content:
                    faults = [
                        one.message for one in jsonschema_rs.iter_errors(root | content["schema"], content["example"])
                    ]
                    assert faults == [], f"{method} {path}"
                    tried += 1
    assert tried >= 45


def test_no_secret_of_a_run_is_documented() -> None:
    text = json.dumps(examples())
    assert text.count("rs_") == text.count("rs_shown-once")
    assert text.count("whsec_") == text.count("whsec_c2hvd24gb25jZSwga2VwdCB0byBzaWduIGJ5")


def test_the_page_shows_every_example(small_house: House, described: Json) -> None:
    with small_house.client() as nobody:
        page = nobody.get("/api/v1/reference").text
    for method, path, operation in operations(described):
        assert request_line(method, path, operation).replace("&", "&amp;") in page
    assert "&#34;because&#34;" in page
    assert "Amadi&#39;s phone" in page
