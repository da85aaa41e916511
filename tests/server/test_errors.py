"""One form for every refusal: RFC 9457, a stable code, a detail, a remedy; and headers on every answer."""

import hashlib
from pathlib import Path
from typing import Any

import httpx
import pytest

from rackside.api.errors import CODES
from rackside.engine import entry
from tests.server.house import House, Phone, running, story

NOWHERE = "00000000-0000-4000-8000-000000000000"
JPEG = b"\xff\xd8\xff\xe0" + b"\x00" * 64
SHA = hashlib.sha256(JPEG).hexdigest()
TRIES: list[tuple[str, str, dict[str, Any], str]] = [
    ("GET", "/entries", {"params": {"after": -1}}, "invalid_query"),
    ("GET", "/entries", {"params": {"limit": 0}}, "invalid_query"),
    ("GET", "/entries", {"params": {"call": NOWHERE}}, "not_found"),
    ("POST", "/entries", {"content": b"{"}, "not_json"),
    ("POST", "/entries", {"json": {"entries": 5}}, "invalid_query"),
    ("POST", "/devices", {"json": {"name": "T. Okafor"}}, "invalid_query"),
    ("POST", "/devices", {"content": b"{"}, "invalid_query"),
    ("POST", "/devices", {"json": {"name": "nobody", "password": "x", "device": "y"}}, "no_credentials"),
    ("DELETE", f"/devices/{NOWHERE}", {}, "not_found"),
    ("GET", "/calls", {"params": {"state": "lost"}}, "invalid_query"),
    ("GET", "/calls", {"params": {"next": "x"}}, "invalid_query"),
    ("GET", "/calls", {"params": {"since": "yesterday"}}, "invalid_query"),
    ("GET", f"/calls/{NOWHERE}", {}, "not_found"),
    ("GET", f"/calls/{NOWHERE}/case", {}, "not_found"),
    ("GET", f"/calls/{NOWHERE}/results", {}, "not_found"),
    ("GET", f"/calls/{NOWHERE}/results.csv", {}, "not_found"),
    ("GET", f"/calls/{NOWHERE}/report.html", {}, "not_found"),
    ("GET", f"/calls/{NOWHERE}/report.pdf", {}, "not_found"),
    ("GET", f"/calls/{NOWHERE}/judgements", {}, "not_found"),
    ("POST", f"/calls/{NOWHERE}/judgements", {}, "not_found"),
    ("POST", f"/calls/{NOWHERE}/reviews", {"json": {"id": NOWHERE, "outcome": "accepted", "seen": 1}}, "not_found"),
    ("POST", f"/calls/{NOWHERE}/reviews", {"json": {"outcome": "fine"}}, "invalid_query"),
    ("GET", "/machines", {"params": {"history": 999}}, "invalid_query"),
    ("GET", f"/machines/{NOWHERE}", {}, "not_found"),
    ("GET", f"/machines/{NOWHERE}/trends", {}, "not_found"),
    ("PUT", f"/photos/{SHA}", {"content": JPEG}, "photo_unannounced"),
    ("PUT", f"/photos/{SHA}", {"content": b"x" * (2 * 1024 * 1024 + 1)}, "body_too_large"),
    ("GET", f"/photos/{SHA}", {}, "photo_unannounced"),
    ("POST", "/analyse", {"json": {"machine": {}, "rounds": [{}]}}, "invalid_case"),
    ("POST", "/analyse", {"content": b"{"}, "not_json"),
    ("POST", "/analyse", {"data": {"a": "b"}}, "media_type"),
    ("GET", "/vocabulary", {"params": {"language": "english"}}, "invalid_query"),
    ("POST", "/people", {"json": {"name": "x"}}, "invalid_query"),
    ("POST", "/people", {"json": {"name": "x", "password": "short", "role": "office"}}, "invalid_query"),
    ("PUT", f"/people/{NOWHERE}/sites", {"json": {"sites": None}}, "not_found"),
    ("DELETE", f"/people/{NOWHERE}", {}, "not_found"),
    ("POST", "/keys", {"json": {"name": "x", "scopes": ["all"]}}, "invalid_query"),
    ("GET", "/nothing", {}, "not_found"),
    ("DELETE", "/entries", {}, "method_not_allowed"),
]


def assert_problem(answer: httpx.Response, code: str) -> None:
    problem = answer.json()
    assert answer.headers["content-type"] == "application/problem+json", answer.text
    assert problem["code"] == code, problem
    assert answer.status_code == problem["status"] == CODES[code].status
    assert problem["detail"]
    assert problem["remedy"] == CODES[code].remedy
    assert problem["type"]
    assert problem["title"]
    if code in ("invalid_query", "invalid_case"):
        assert problem["errors"], problem
        assert all(set(fault) == {"pointer", "detail"} for fault in problem["errors"])


def test_every_route_refuses_in_one_form(small_house: House) -> None:
    admin = small_house.phone("Admin", "admin")
    for method, path, request, code in TRIES:
        assert_problem(admin.http.request(method, f"/api/v1{path}", **request), code)


def test_every_route_but_the_open_ones_asks_for_a_token(small_house: House) -> None:
    described = httpx.get(f"{small_house.url}/api/v1/openapi.json", trust_env=False).json()
    nobody = small_house.client()
    tried = 0
    for path, methods in described["paths"].items():
        for method in methods:
            if path.endswith(("/health", "/vocabulary")) or (method, path) == ("post", "/api/v1/devices"):
                continue
            answer = nobody.request(method, path.replace("{", "").replace("}", ""), json={})
            assert_problem(answer, "no_credentials")
            assert answer.headers["www-authenticate"] == "Bearer"
            tried += 1
    assert tried >= 25


def test_admin_routes_are_for_admins(small_house: House) -> None:
    office = small_house.phone("M. Castellanos", "office")
    for method, path in (("GET", "/people"), ("POST", "/people"), ("GET", "/devices"), ("POST", "/keys")):
        assert_problem(office.http.request(method, f"/api/v1{path}", json={}), "not_allowed")


def test_a_failing_engine_is_told_and_loses_nothing(small_house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    okafor = small_house.phone("T. Okafor")
    told = story(okafor)
    okafor.keep(*told.entries)

    def failing(_case: str, _language: str = "en") -> str:
        raise ZeroDivisionError

    with monkeypatch.context() as broken:
        broken.setattr(entry, "judge", failing)
        assert_problem(okafor.http.get(f"/api/v1/calls/{told.call}/results"), "engine_failed")
        okafor.write("submission", {}, told.call)
    assert okafor.get(f"/calls/{told.call}/results")["state"] == "submitted"


def test_a_busy_database_asks_to_come_again(sqlite_url: str, tmp_path: Path) -> None:
    with running(sqlite_url, tmp_path, busy_seconds=0.2) as house:
        okafor = house.phone("T. Okafor")
        told = story(okafor)
        with house.database.writing():
            body = {"device": okafor.device, "entries": told.entries}
            answer = okafor.http.post("/api/v1/entries", json=body)
        assert_problem(answer, "busy")
        assert answer.headers["retry-after"] == "1"
        okafor.keep(*told.entries)


def test_a_body_too_large_is_refused_while_it_comes(sqlite_url: str, tmp_path: Path) -> None:
    with running(sqlite_url, tmp_path, body_limit=1000) as house:
        okafor = house.phone("T. Okafor")
        assert_problem(okafor.http.post("/api/v1/entries", content=b" " * 1001), "body_too_large")
        assert_problem(okafor.http.post("/api/v1/analyse", content=b" " * 1001), "body_too_large")


def test_guessing_passwords_is_slowed_down(small_house: House) -> None:
    small_house.person("S. Guessed")
    asked = {"name": "S. Guessed", "password": "wrong", "device": "x"}
    with small_house.client() as nobody:
        for _ in range(10):
            assert_problem(nobody.post("/api/v1/devices", json=asked), "no_credentials")
        answer = nobody.post("/api/v1/devices", json=asked)
    assert_problem(answer, "slow_down")
    assert 1 <= int(answer.headers["retry-after"]) <= 60


@pytest.mark.parametrize("path", ["/api/v1/health", "/api/v1/nothing", "/", "/office/sign-in", "/engine/index.json"])
def test_security_headers_are_on_every_answer(small_house: House, path: str) -> None:
    with small_house.client() as nobody:
        headers = nobody.get(path).headers
    assert headers["content-security-policy"].startswith("default-src 'none'; script-src 'self' 'wasm-unsafe-eval'")
    assert "unsafe-inline" not in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"


def test_a_phone_s_photo_travels_by_its_content(small_house: House) -> None:
    okafor: Phone = small_house.phone("T. Okafor")
    told = story(okafor)
    photo = {"sha256": SHA, "media_type": "image/jpeg", "size": len(JPEG), "shows": "plate"}
    answer = okafor.push(*told.entries, okafor.make("photo", photo, told.call))
    assert answer["photos_wanted"] == [SHA]
    assert_problem(okafor.http.get(f"/api/v1/photos/{SHA}"), "not_found")
    assert_problem(okafor.http.put(f"/api/v1/photos/{SHA}", content=b"\xff\xd8\xff other"), "photo_mismatch")
    assert_problem(okafor.http.put(f"/api/v1/photos/{SHA}", content=b"<svg/>"), "photo_type")
    assert okafor.http.put(f"/api/v1/photos/{SHA}", content=JPEG).status_code == 201
    assert okafor.http.put(f"/api/v1/photos/{SHA}", content=JPEG).status_code == 200
    got = okafor.http.get(f"/api/v1/photos/{SHA}")
    assert (got.content, got.headers["content-type"]) == (JPEG, "image/jpeg")
    assert okafor.push(*told.entries, okafor.make("photo", photo, told.call))["photos_wanted"] == []
    stranger = small_house.phone("R. Lindqvist", sites=[NOWHERE])
    assert_problem(stranger.http.get(f"/api/v1/photos/{SHA}"), "photo_unannounced")
