"""Looking after a webhook by program and by command: tried, paused, given a new secret, its log read."""

import time
from collections.abc import Callable, Iterator

import pytest
from standardwebhooks import Webhook
from typer.testing import CliRunner

from rackside.cli import app
from rackside.client import Rackside, RacksideError
from tests.server.house import House, story
from tests.server.receiver import Receiver, receiving
from tests.server.test_errors import NOWHERE

Command = Callable[..., str]


@pytest.fixture
def shop(open_house: House) -> Iterator[Rackside]:
    key = open_house.key("the shop", "admin")
    with Rackside(open_house.url, key.http.headers["authorization"].removeprefix("Bearer ")) as server:
        yield server


@pytest.fixture
def rackside(open_house: House, monkeypatch: pytest.MonkeyPatch) -> Command:
    """Run a command on the database of the running server."""
    monkeypatch.setenv("RACKSIDE_DATABASE_URL", open_house.settings.database_url)
    monkeypatch.setenv("RACKSIDE_WEBHOOKS_PRIVATE", "true")

    def run(*arguments: str, fails: bool = False) -> str:
        done = CliRunner().invoke(app, ["webhook", *arguments])
        assert (done.exit_code != 0) is fails, done.output
        return (done.stderr if fails else done.stdout).strip()

    return run


def reasons(shop: Rackside, webhook_id: str) -> list[str]:
    """Return what became of each attempt, once every message is settled."""
    settled(shop, webhook_id)
    return [attempt["reason"] for one in shop.deliveries(webhook_id) for attempt in one["log"]]


def settled(shop: Rackside, webhook_id: str, but: tuple[str, ...] = ()) -> None:
    """Wait until no message is on its way, but those of some events."""
    deadline = time.monotonic() + 20
    while {one["event"] for one in shop.deliveries(webhook_id, "pending")} != set(but):
        assert time.monotonic() < deadline
        time.sleep(0.05)


def submit_a_call(house: House) -> None:
    okafor = house.phone("T. Okafor")
    told = story(okafor)
    okafor.keep(*told.entries, okafor.make("submission", {}, told.call))


def test_a_program_tries_an_address_and_reads_what_became_of_it(shop: Rackside, receiver: Receiver) -> None:
    made = shop.add_webhook(receiver.url, ["call.submitted"])
    tried = shop.try_webhook(made["id"])
    assert (tried["event"], tried["state"]) == ("webhook.test", "pending")
    assert reasons(shop, made["id"]) == ["Taken, with 204."]
    [message] = receiver.messages(made["secret"])
    assert message["data"] == {"webhook": made["id"], "author": "the shop"}


def test_a_test_is_tried_once(shop: Rackside) -> None:
    with receiving(lambda _number: 500) as failing:
        made = shop.add_webhook(failing.url, ["call.submitted"])
        shop.try_webhook(made["id"])
        assert reasons(shop, made["id"]) == ["It answered 500."]
        assert failing.asked == 1


def test_both_secrets_sign_while_a_receiver_changes_over(shop: Rackside, receiver: Receiver) -> None:
    made = shop.add_webhook(receiver.url, ["call.submitted"])
    fresh = shop.renew_webhook_secret(made["id"])
    [listed] = shop.webhooks()
    assert listed["old_secret_until"]
    assert "secret" not in listed
    assert "old_secret" not in listed
    shop.try_webhook(made["id"])
    receiver.wait_for(1)
    for secret in (made["secret"], fresh):
        Webhook(secret).verify(*receiver.taken[0])


def test_nothing_is_lost_in_a_pause(open_house: House, shop: Rackside, receiver: Receiver) -> None:
    made = shop.add_webhook(receiver.url, ["call.submitted"])
    assert shop.pause_webhook(made["id"])["paused_at"]
    submit_a_call(open_house)
    shop.try_webhook(made["id"])
    settled(shop, made["id"], but=("call.submitted",))
    assert len(receiver.taken) == 1
    assert shop.resume_webhook(made["id"])["paused_at"] is None
    receiver.wait_for(2)
    assert [message["type"] for message in receiver.messages(made["secret"])] == ["webhook.test", "call.submitted"]


def test_a_key_of_other_sites_can_not_touch_it(open_house: House, shop: Rackside, receiver: Receiver) -> None:
    made = shop.add_webhook(receiver.url, ["call.submitted"])
    limited = open_house.key("limited", "admin", sites=[NOWHERE])
    for act in ("pause", "resume", "secret", "test"):
        answer = limited.http.post(f"/api/v1/webhooks/{made['id']}/{act}")
        assert (answer.status_code, answer.json()["code"]) == (404, "not_found")
    with pytest.raises(RacksideError, match="not_found"):
        shop.try_webhook(NOWHERE)


def test_a_site_that_is_not_there_is_told_so(shop: Rackside, receiver: Receiver) -> None:
    with pytest.raises(RacksideError) as refused:
        shop.add_webhook(receiver.url, ["call.submitted"], sites=[NOWHERE])
    assert refused.value.errors == [{"pointer": "/sites/0", "detail": f"There is no site {NOWHERE} that you see."}]


def test_a_command_does_all_of_it(rackside: Command, open_house: House, shop: Rackside, receiver: Receiver) -> None:
    webhook_id, secret = rackside("add", receiver.url, "--event", "call.submitted", "--note", "by hand").split()
    assert rackside("list") == f"{webhook_id} {receiver.url}: call.submitted; told as things happen"
    assert "is on its way" in rackside("test", webhook_id)
    receiver.wait_for(1)
    assert receiver.messages(secret)[0]["type"] == "webhook.test"
    reasons(shop, webhook_id)
    assert rackside("log", webhook_id).endswith("Taken, with 204.")
    assert rackside("log", webhook_id, "--state", "dead") == ""
    assert rackside("pause", webhook_id).startswith("paused since")
    assert rackside("resume", webhook_id) == "told as things happen"
    fresh = rackside("secret", webhook_id)
    rackside("again", webhook_id, rackside("log", webhook_id).split()[3])
    receiver.wait_for(2)
    Webhook(fresh).verify(*receiver.taken[1])
    rackside("remove", webhook_id)
    assert rackside("list") == ""


def test_a_command_says_what_is_wrong(rackside: Command, monkeypatch: pytest.MonkeyPatch) -> None:
    assert "Events are call.submitted" in rackside("add", "https://shop.example/", "--event", "lost", fails=True)
    assert "There is no webhook nothing here." in rackside("log", "nothing", fails=True)
    monkeypatch.setenv("RACKSIDE_WEBHOOKS_PRIVATE", "false")
    inside = rackside("add", "https://127.0.0.1/", "--event", "watch.due", fails=True)
    assert "leads into a private network" in inside
