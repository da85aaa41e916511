"""Signing in at the office: what is refused, where it leads, and that it ends."""

import httpx
import pytest

from tests.office.desk import Desk, words
from tests.server.house import PASSWORD, House


@pytest.fixture
def stranger(small_house: House) -> Desk:
    small_house.person("M. Castellanos", "office")
    return Desk(small_house)


def test_every_page_asks_for_a_sign_in_and_comes_back(stranger: Desk) -> None:
    for path in ("/office", "/office/calls", "/office/machines", "/office/people", "/office/devices"):
        answer = stranger.http.get(path)
        assert answer.status_code == 303
        assert answer.headers["location"] == f"/office/sign-in?next={path}"
    page = stranger.get("/office/sign-in?next=/office/machines")
    assert 'name="next" value="/office/machines"' in page
    answer = stranger.post("/office/sign-in", name="M. Castellanos", password=PASSWORD, next="/office/machines")
    assert answer.headers["location"] == "/office/machines"
    assert stranger.get("/office/machines")


def test_a_wrong_password_is_told_and_sets_no_cookie(stranger: Desk) -> None:
    answer = stranger.post("/office/sign-in", 401, name="M. Castellanos", password="not the password")
    assert "The name or the password is wrong." in words(answer.text)
    assert "set-cookie" not in answer.headers


def test_guessing_is_slowed_down(stranger: Desk) -> None:
    for _ in range(10):
        stranger.post("/office/sign-in", 401, name="guessed name", password="wrong password")
    answer = stranger.post("/office/sign-in", 429, name="guessed name", password="wrong password")
    assert "Too many wrong passwords" in words(answer.text)


@pytest.mark.parametrize(
    "place", ["https://elsewhere.example/", "//elsewhere.example", "/api/v1/me", "/office/\\x", "/officer"]
)
def test_signing_in_leads_only_to_office_pages(stranger: Desk, place: str) -> None:
    answer = stranger.post("/office/sign-in", name="M. Castellanos", password=PASSWORD, next=place)
    assert answer.headers["location"] == "/office"


def test_the_cookie_is_not_for_scripts_and_ends_with_signing_out(stranger: Desk) -> None:
    answer = stranger.post("/office/sign-in", name="M. Castellanos", password=PASSWORD)
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=lax" in cookie
    held = dict(stranger.http.cookies)
    stranger.post("/office/sign-out")
    stranger.http.cookies.update(held)
    assert stranger.http.get("/office").status_code == 303


@pytest.mark.parametrize("origin", ["https://elsewhere.example", "null", ""])
def test_a_form_from_elsewhere_is_refused(stranger: Desk, origin: str) -> None:
    stranger.sign_in("M. Castellanos")
    headers = {"origin": origin} if origin else {}
    fields = {"name": "M. Castellanos", "password": PASSWORD}
    with httpx.Client(base_url=stranger.house.url, cookies=stranger.http.cookies, trust_env=False) as foreign:
        for path in ("/office/sign-in", "/office/sign-out", "/office/people"):
            answer = foreign.post(path, data=fields, headers=headers)
            assert answer.status_code == 403
            assert "not sent by a page of this server" in words(answer.text)
    assert stranger.get("/office")
