"""The office's webhooks: an address is added, tried, paused, given a new secret and removed, and its log says why."""

import re
import socket
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from standardwebhooks import Webhook

from tests.office.desk import Desk, words
from tests.server.house import House, running, story
from tests.server.receiver import Receiver, receiving

ADMIN = "M. Castellanos"


@pytest.fixture
def open_house(sqlite_url: str, tmp_path: Path) -> Iterator[House]:
    with running(sqlite_url, tmp_path, webhooks_private=True) as house:
        house.person(ADMIN, "admin")
        yield house


@pytest.fixture
def admin(open_house: House) -> Desk:
    return Desk(open_house).sign_in(ADMIN)


@pytest.fixture
def receiver() -> Iterator[Receiver]:
    with receiving() as told:
        yield told


def secret_on(html: str) -> str:
    [secret] = re.findall(r"whsec_[\w+/=]+", html)
    return str(secret)


def added(admin: Desk, url: str, *events: str) -> tuple[str, str]:
    """Add an address; return the place of its page and its secret."""
    page = admin.post("/office/webhooks", 201, url=url, event=list(events) or ["call.submitted"], note="the scheduler")
    [webhook_id] = set(re.findall(r"/office/webhooks/([0-9a-f-]{36})/test", page.text))
    return f"/office/webhooks/{webhook_id}", secret_on(page.text)


def shown(admin: Desk, place: str, sentence: str) -> str:
    """Look at the page again until it says something."""
    deadline = time.monotonic() + 20
    while sentence not in (seen := words(admin.get(place))):
        assert time.monotonic() < deadline, seen
        time.sleep(0.1)
    return seen


def test_the_secret_is_shown_once_and_messages_verify_by_it(admin: Desk, receiver: Receiver) -> None:
    place, secret = added(admin, receiver.url)
    assert "whsec_" not in admin.get(place) + admin.get("/office/webhooks")
    assert "the scheduler" in admin.get("/office/webhooks")
    admin.post(f"{place}/test")
    receiver.wait_for(1)
    [message] = receiver.messages(secret)
    assert (message["type"], message["data"]["author"]) == ("webhook.test", ADMIN)
    assert "Taken, with 204." in shown(admin, place, "Taken, with")


def test_for_a_day_the_old_secret_signs_beside_the_new_one(admin: Desk, receiver: Receiver) -> None:
    place, old = added(admin, receiver.url)
    new = secret_on(admin.post(f"{place}/secret", 200).text)
    assert new != old
    assert "the secret before this one signs too" in words(admin.get(place))
    admin.post(f"{place}/test")
    receiver.wait_for(1)
    body, headers = receiver.taken[0]
    assert len(headers["webhook-signature"].split()) == 2
    for secret in (old, new):
        Webhook(secret).verify(body, headers)


def test_a_day_later_only_the_new_secret_signs(admin: Desk, receiver: Receiver, open_house: House) -> None:
    place, old = added(admin, receiver.url)
    new = secret_on(admin.post(f"{place}/secret", 200).text)
    with open_house.database.writing() as connection:
        connection.exec_driver_sql("UPDATE webhooks SET old_until = '2026-01-01T00:00:00.000000Z'")
    admin.post(f"{place}/test")
    receiver.wait_for(1)
    body, headers = receiver.taken[0]
    Webhook(new).verify(body, headers)
    assert len(headers["webhook-signature"].split()) == 1


def test_messages_wait_while_it_is_paused_and_a_test_does_not(
    admin: Desk, receiver: Receiver, open_house: House
) -> None:
    place, secret = added(admin, receiver.url)
    admin.post(f"{place}/telling", on="no")
    okafor = open_house.phone("T. Okafor")
    told = story(okafor)
    okafor.keep(*told.entries, okafor.make("submission", {}, told.call))
    admin.post(f"{place}/test")
    receiver.wait_for(1)
    seen = shown(admin, place, "Taken, with")
    assert "paused since" in seen
    assert "not tried yet" in seen
    admin.post(f"{place}/telling", on="yes")
    receiver.wait_for(2)
    assert [message["type"] for message in receiver.messages(secret)] == ["webhook.test", "call.submitted"]


@pytest.mark.parametrize(
    ("status", "sentence"),
    [
        (302, "It answered 302: redirects are not followed; give the address it leads to."),
        (401, "It answered 401: it wants other credentials than the signature."),
        (500, "It answered 500."),
        (410, "It answered 410: it wants to be told no more."),
    ],
)
def test_the_log_says_why_a_message_was_not_taken(admin: Desk, status: int, sentence: str) -> None:
    with receiving(lambda _number: status) as failing:
        place, _ = added(admin, failing.url)
        admin.post(f"{place}/test")
        seen = shown(admin, place, "given up Send it again")
    assert sentence in seen
    assert ("told nothing since" in seen) is (status == 410)
    assert sentence in words(admin.get(f"{place}?state=dead"))
    assert sentence not in words(admin.get(f"{place}?state=delivered"))


def test_what_was_given_up_can_be_sent_again(admin: Desk) -> None:
    with receiving(lambda _number: 410) as mended:
        place, _ = added(admin, mended.url)
        admin.post(f"{place}/test")
        shown(admin, place, "told nothing since")
        mended.answer = lambda _number: 204
        [delivery] = set(re.findall(r'name="delivery" value="(msg_\w+)"', admin.get(place)))
        admin.post(f"{place}/again", delivery=delivery)
        mended.wait_for(1)
        admin.post(f"{place}/telling", on="yes")
        assert "told as things happen" in words(admin.get(place))


@pytest.mark.parametrize(
    ("url", "sentence"),
    [
        ("https://127.0.0.1/hook", "Not added. The URL leads into a private network"),
        ("http://shop.example/hook", "Not added. The URL must begin with https://."),
    ],
)
def test_an_address_inside_is_refused_in_words(sqlite_url: str, tmp_path: Path, url: str, sentence: str) -> None:
    with running(sqlite_url, tmp_path) as house:
        house.person(ADMIN, "admin")
        admin = Desk(house).sign_in(ADMIN)
        page = admin.post("/office/webhooks", 422, url=url, event=["call.submitted"], note="the scheduler")
        assert sentence in words(page.text)
        assert f'value="{url}"' in page.text
        assert 'value="call.submitted" checked' in page.text
        assert "No address is told of anything yet." in words(admin.get("/office/webhooks"))


def test_a_name_that_leads_inside_is_refused_at_the_attempt(
    sqlite_url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = socket.getaddrinfo

    def inside(host: str, *more: Any, **others: Any) -> Any:
        return asked("10.0.0.8" if host == "shop.example" else host, *more, **others)

    monkeypatch.setattr(socket, "getaddrinfo", inside)
    with running(sqlite_url, tmp_path) as house:
        house.person(ADMIN, "admin")
        admin = Desk(house).sign_in(ADMIN)
        place, _ = added(admin, "https://shop.example/hook")
        admin.post(f"{place}/test")
        sentence = "Not sent: shop.example leads into a private network. Only RACKSIDE_WEBHOOKS_PRIVATE lets"
        assert sentence in shown(admin, place, "Not sent")


def test_a_removed_address_is_forgotten(admin: Desk, receiver: Receiver) -> None:
    place, _ = added(admin, receiver.url)
    admin.post(f"{place}/test")
    admin.post(f"{place}/remove")
    assert receiver.url not in admin.get("/office/webhooks")
    admin.get(place, 404)


def test_no_event_is_a_fault_of_the_form(admin: Desk, receiver: Receiver) -> None:
    page = admin.post("/office/webhooks", 422, url=receiver.url)
    assert "Not added. Events are call.submitted" in words(page.text)


def test_only_an_admin_comes_here_and_only_by_a_page_of_this_server(open_house: House, admin: Desk) -> None:
    open_house.person("O. Ffice", "office")
    office = Desk(open_house).sign_in("O. Ffice")
    office.get("/office/webhooks", 403)
    office.post("/office/webhooks", 403, url="https://shop.example/", event=["call.submitted"])
    admin.post("/office/webhooks", 403, origin="https://shop.example", url="https://shop.example/")
    assert "/office/webhooks" in admin.get("/office/devices")
    assert "/office/webhooks" not in office.get("/office/devices")
