"""Who may do what: people, their phones, keys, and office sessions."""

import re
import time
from datetime import timedelta
from http.cookies import SimpleCookie

import httpx
from sqlalchemy import text

from rackside.records import clock
from tests.server.house import PASSWORD, House, story


def test_signing_in_gives_a_token_and_what_the_phone_needs(house: House) -> None:
    house.person("T. Okafor")
    asked = {"name": "T. Okafor", "password": PASSWORD, "device": "Okafor's phone"}
    given = httpx.post(f"{house.url}/api/v1/devices", json=asked, trust_env=False)
    assert given.status_code == 201
    assert {"token", "device", "person", "sites", "valid_until"} <= set(given.json())
    assert given.json()["person"] == "T. Okafor"
    assert given.json()["valid_until"] > clock.written(clock.now() + timedelta(days=29))
    with house.database.reading() as connection:
        kept = str(connection.execute(text("SELECT * FROM devices")).all())
        assert given.json()["token"] not in kept
        assert PASSWORD not in str(connection.execute(text("SELECT * FROM people")).all())


def test_the_same_phone_signing_in_again_stays_the_same_device(house: House) -> None:
    first = house.phone("T. Okafor")
    again = house.sign_in("T. Okafor", first.device)
    assert again.device == first.device
    assert first.get("/me", 401)["code"] == "no_credentials"
    assert again.get("/me")["device"] == first.device


def test_a_token_ends_by_revocation_and_by_time(house: House) -> None:
    phone, other = house.phone("T. Okafor"), house.phone("R. Lindqvist")
    assert other.http.delete(f"/api/v1/devices/{phone.device}").status_code == 404
    assert phone.http.delete(f"/api/v1/devices/{phone.device}").status_code == 204
    assert phone.get("/me", 401)["code"] == "token_revoked"
    with house.database.writing() as connection:
        connection.execute(text("UPDATE devices SET valid_until = '2020-01-01T00:00:00.000000Z'"))
    assert other.get("/me", 401)["code"] == "token_expired"


def test_an_admin_adds_people_keys_and_sites_by_the_api(house: House) -> None:
    admin = house.phone("Admin", "admin")
    told = story(admin)
    admin.keep(*told.entries)
    person = {"name": "T. Okafor", "password": PASSWORD, "role": "technician", "sites": []}
    made = admin.http.post("/api/v1/people", json=person)
    assert made.status_code == 201
    phone = house.sign_in("T. Okafor")
    assert phone.pull() == []
    admin.http.put(f"/api/v1/people/{made.json()['id']}/sites", json={"sites": [told.site]})
    assert len(phone.pull()) == 5
    taken = admin.http.post("/api/v1/people", json=person)
    assert (taken.status_code, taken.json()["code"]) == (422, "invalid_query")
    key = admin.http.post("/api/v1/keys", json={"name": "warranty", "scopes": ["read"], "days": 30})
    assert key.status_code == 201
    client = house.client(key.json()["token"])
    assert client.get("/api/v1/calls").json()["items"][0]["id"] == told.call
    devices = admin.get("/devices")["items"]
    assert {device["name"] for device in devices} == {"phone", "warranty"}
    assert "token" not in str(devices)
    assert admin.http.delete(f"/api/v1/people/{made.json()['id']}").status_code == 204
    assert phone.get("/me", 401)["code"] == "token_revoked"


def test_keys_do_what_their_scopes_say(house: House) -> None:
    reader, judge = house.key("reader", "read"), house.key("judge", "analyse")
    assert reader.get("/calls")["items"] == []
    case = {"machine": {}, "rounds": []}
    assert reader.http.post("/api/v1/analyse", json=case).status_code == 403
    assert judge.http.post("/api/v1/analyse", json=case).status_code == 200
    assert judge.http.get("/api/v1/calls").status_code == 403


def session_of(answer: httpx.Response) -> SimpleCookie:
    cookie = SimpleCookie()
    cookie.load(answer.headers["set-cookie"])
    return cookie


def test_an_office_session_is_a_cookie_no_script_reads(house: House) -> None:
    house.person("M. Castellanos", "office")
    with house.client() as browser:
        form = {"name": "M. Castellanos", "password": PASSWORD}
        answer = browser.post("/office/sign-in", data=form, headers={"Origin": house.url})
        assert answer.status_code == 303
        morsel = session_of(answer)["rackside_session"]
        assert morsel["httponly"]
        assert morsel["samesite"] == "lax"
        assert browser.get("/office").status_code == 200
        assert browser.get("/api/v1/me").json()["person"] == "M. Castellanos"
        assert browser.post("/api/v1/analyse", json={"machine": {}, "rounds": []}).status_code == 401
        with house.database.reading() as connection:
            assert morsel.value not in str(connection.execute(text("SELECT * FROM sessions")).all())
        browser.post("/office/sign-out", headers={"Origin": house.url})
        browser.cookies.set("rackside_session", morsel.value)
        assert browser.get("/api/v1/me").status_code == 401


def test_a_form_of_another_origin_is_refused(house: House) -> None:
    house.person("M. Castellanos", "office")
    form = {"name": "M. Castellanos", "password": PASSWORD}
    with house.client() as browser:
        for headers in ({"Origin": "http://elsewhere.example"}, {"Origin": "null"}, {}):
            answer = browser.post("/office/sign-in", data=form, headers=headers)
            assert answer.status_code == 403
            assert "set-cookie" not in answer.headers


def test_a_key_is_made_in_the_office_and_shown_once(house: House) -> None:
    house.person("Admin", "admin")
    okafor = house.phone("T. Okafor")
    told = story(okafor)
    okafor.keep(*told.entries)
    with house.client() as browser:
        own = {"Origin": house.url}
        browser.post("/office/sign-in", data={"name": "Admin", "password": PASSWORD}, headers=own)
        asked = {"name": "scheduler", "scope": ["read", "write"], "site": [told.site], "days": "30"}
        made = browser.post("/office/keys", data=asked, headers=own)
        assert made.status_code == 201
        [token] = set(re.findall(r"rs_[\w-]{43}", made.text))
        assert token not in browser.get("/office/devices").text
        for wrong in ({"days": "soon"}, {"scope": []}, {"days": "0"}, {"name": " "}, {}):
            assert browser.post("/office/keys", data=asked | wrong, headers=own).status_code == 422
    me = house.client(token).get("/api/v1/me").json()
    assert (me["person"], me["rights"], me["sites"]) == ("scheduler", ["read", "write"], [told.site])


def test_a_key_s_last_use_is_noted_also_when_it_only_reads(house: House) -> None:
    key, admin = house.key("reader", "read"), house.phone("Admin", "admin")
    assert {one["name"]: one["last_seen"] for one in admin.get("/devices")["items"]}["reader"] is None
    key.get("/calls")
    deadline = time.monotonic() + 10
    while {one["name"]: one["last_seen"] for one in admin.get("/devices")["items"]}["reader"] is None:
        assert time.monotonic() < deadline


def test_a_renewed_key_stays_who_it_was_and_the_old_token_ends(house: House) -> None:
    key, admin = house.key("reader", "read"), house.phone("Admin", "admin")
    answer = admin.http.post(f"/api/v1/keys/{key.device}/renew")
    assert answer.status_code == 200
    assert key.get("/me", 401)["code"] == "no_credentials"
    renewed = house.client(answer.json()["token"]).get("/api/v1/me").json()
    assert (renewed["person"], renewed["device"]) == ("reader", key.device)
    assert admin.http.post(f"/api/v1/keys/{admin.device}/renew").status_code == 404
