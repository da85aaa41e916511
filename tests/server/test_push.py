"""Pushing entries: what is taken, what is repeated, what is refused and why, on both databases."""

import gzip
import json
import uuid
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import httpx
import pytest
from sqlalchemy import text

from tests.server.house import House, Phone, line_voltage, story


def statuses(answer: dict[str, Any]) -> list[str]:
    return [result["code"] or result["status"] for result in answer["results"]]


def test_entries_get_cursors_in_the_order_sent(okafor: Phone) -> None:
    answer = okafor.push(*story(okafor).entries)
    assert statuses(answer) == ["accepted"] * 5
    assert [result["cursor"] for result in answer["results"]] == [1, 2, 3, 4, 5]
    assert answer["cursor"] == 5
    assert [item["cursor"] for item in okafor.pull()] == [1, 2, 3, 4, 5]


def test_a_repeat_moves_nothing(okafor: Phone) -> None:
    entries = story(okafor).entries
    first = okafor.push(*entries)
    again = okafor.push(*reversed(entries))
    assert statuses(again) == ["repeated"] * 5
    assert again["cursor"] == first["cursor"]
    assert [result["cursor"] for result in again["results"]] == [5, 4, 3, 2, 1]
    assert okafor.get("/entries", after=5)["items"] == []


def test_a_repeat_within_one_batch_is_taken_once(okafor: Phone) -> None:
    entries = story(okafor).entries
    assert statuses(okafor.push(*entries, entries[4])) == ["accepted"] * 5 + ["repeated"]


@pytest.mark.parametrize("rewrite", [lambda text: text.replace('"size": 480', '"size": 480.0'), lambda text: text])
def test_content_is_equal_after_parsing(okafor: Phone, rewrite: Any) -> None:
    """A number written as 480.0 is the number 480, and the order of members says nothing."""
    told = story(okafor)
    okafor.keep(*told.entries)
    photo = okafor.make(
        "photo", {"sha256": "0" * 64, "media_type": "image/png", "size": 480, "shows": "oil"}, told.call
    )
    okafor.keep(photo)
    turned = json.dumps({"device": okafor.device, "entries": [dict(reversed(photo.items()))]})
    answer = okafor.http.post("/api/v1/entries", content=rewrite(turned))
    assert statuses(answer.json()) == ["repeated"]


def test_an_id_with_other_content_is_refused_and_the_first_stays(okafor: Phone) -> None:
    told = story(okafor)
    okafor.keep(*told.entries)
    other = told.entries[0] | {"body": {"name": "Another store"}}
    assert statuses(okafor.push(other)) == ["id_reused"]
    assert okafor.pull()[0]["body"]["name"] == "Tannery Lane Cold Store"


def test_what_is_refused_blocks_nothing_else(okafor: Phone) -> None:
    told = story(okafor)
    odd = [
        okafor.make("weather", {}),
        okafor.make("sign", {"sign": "knock", "present": True}, told.call, schema=9),
        okafor.make("sign", {"sign": "knock", "present": "yes"}, told.call),
        okafor.make("sign", {"sign": "knock", "present": True}, str(uuid.uuid4())),
        okafor.make("sign", {"sign": "knock", "present": True}, told.call, author="R. Lindqvist"),
        okafor.make("submission", {"note": "x" * 300_000}, told.call),
        "no entry at all",
    ]
    answer = okafor.push(*told.entries[:3], *odd, *told.entries[3:])
    expected = ["unknown_kind", "unknown_schema", "invalid_body", "missing_reference", "forged_author"]
    assert statuses(answer) == ["accepted"] * 3 + [*expected, "entry_too_large", "invalid_body"] + ["accepted"] * 2
    refused = [result for result in answer["results"] if result["status"] == "refused"]
    assert all(result["detail"] and result["remedy"] and result["cursor"] is None for result in refused)
    assert len(okafor.pull()) == 5


def test_every_fault_of_a_body_is_told_with_its_pointer(okafor: Phone) -> None:
    told = story(okafor)
    wrong = line_voltage(told.round) | {"unit": "furlong", "colour": "red", "legs": {"L1-L2": "478", "L9": "480"}}
    answer = okafor.push(*told.entries, okafor.make("reading", wrong, told.call))
    faults = answer["results"][-1]
    assert {fault["pointer"] for fault in faults["errors"]} == {"/body/unit", "/body/colour", "/body/legs/L9"}
    assert all(fault["pointer"] in faults["detail"] for fault in faults["errors"])


BODIES = [
    ("machine", {"site": "SITE", "tag": "A1", "ratd_voltage": 460}, "/body/ratd_voltage"),
    ("machine", {"site": "SITE", "tag": "A1", "oil_control": {"cut_owt": 9}}, "/body/oil_control/cut_owt"),
    ("machine", {"tag": "A1"}, "/body/site"),
    ("site", {"name": "Store", "time_zone": "Mars/Base"}, "/body/time_zone"),
    ("site", {"name": "Store", "altitude": {"value": 100}}, "/body/altitude/unit"),
    ("meter", {"name": "clamp", "points": {"no_point": {}}}, "/body/points/no_point"),
    ("call", {"machine": "not an id"}, "/body/machine"),
]


@pytest.mark.parametrize(("kind", "body", "pointer"), BODIES, ids=[pointer for _, _, pointer in BODIES])
def test_a_typo_does_not_vanish(okafor: Phone, kind: str, body: dict[str, Any], pointer: str) -> None:
    site = okafor.write("site", {"name": "Tannery Lane Cold Store"})
    body = {name: site["id"] if value == "SITE" else value for name, value in body.items()}
    result = okafor.push(okafor.make(kind, body))["results"][0]
    assert result["code"] == "invalid_body"
    assert [fault["pointer"] for fault in result["errors"]] == [pointer]


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"at": "2026-02-30T10:00:00Z"}, "/body/at"),
        ({"at": "yesterday"}, "/body/at"),
        ({"round": "B3"}, "/body/round"),
        ({"legs": {"L1-L2": "478", "L9": "480", "L3-L1": "479"}}, "/body/legs/L9"),
        ({"legs": {"L1-L2": ["478"], "L2-L3": "480", "L3-L1": "479"}}, "/body/legs/L1-L2"),
        ({"state": "walking"}, "/body/state"),
        ({"by": "x" * 4001}, "/body/by"),
        ({"seconds": "soon"}, "/body/seconds"),
    ],
)
def test_a_reading_like_many_good_ones_is_still_looked_at(okafor: Phone, change: dict[str, Any], pointer: str) -> None:
    told = story(okafor)
    okafor.keep(*told.entries, *(okafor.make("reading", line_voltage(told.round), told.call) for _ in range(3)))
    result = okafor.push(okafor.make("reading", line_voltage(told.round) | change, told.call))["results"][0]
    assert result["code"] == "invalid_body"
    assert [fault["pointer"] for fault in result["errors"]] == [pointer]


def test_extra_is_where_other_members_go(okafor: Phone) -> None:
    told = story(okafor)
    okafor.keep(*told.entries)
    okafor.write("reading", line_voltage(told.round) | {"extra": {"probe_serial": "17"}}, told.call)


def test_a_call_belongs_to_its_own_id(okafor: Phone) -> None:
    told = story(okafor)
    call = told.entries[2] | {"call": str(uuid.uuid4())}
    assert statuses(okafor.push(*told.entries[:2], call)) == ["accepted", "accepted", "invalid_body"]


def test_a_reading_must_name_a_round_of_its_own_call(okafor: Phone) -> None:
    one, other = story(okafor), story(okafor, "B4")
    okafor.keep(*one.entries, *other.entries)
    stray = okafor.make("reading", line_voltage(other.round), one.call)
    lost = okafor.make("reading", line_voltage(str(uuid.uuid4())), one.call)
    assert statuses(okafor.push(stray, lost)) == ["invalid_body", "missing_reference"]


def test_nobody_writes_as_somebody_else(house: House, okafor: Phone) -> None:
    lindqvist = house.phone("R. Lindqvist")
    told = story(okafor)
    assert statuses(lindqvist.push(*told.entries)) == ["forged_author"] * 5
    mine = [one | {"author": "R. Lindqvist"} for one in told.entries]
    assert statuses(lindqvist.push(*mine)) == ["forged_author"] * 5, "the device is the other's"


def test_a_technician_writes_no_review(okafor: Phone) -> None:
    told = story(okafor)
    okafor.keep(*told.entries)
    assert statuses(okafor.push(okafor.make("review", {"outcome": "accepted"}, told.call))) == ["not_allowed"]


def test_a_correction_replaces_only_what_it_names(okafor: Phone) -> None:
    told = story(okafor)
    okafor.keep(*told.entries)
    okafor.write("machine", {"tag": "B4", "rack": None}, base=[told.machine])
    plate = okafor.get(f"/machines/{told.machine}")["plate"]
    assert plate["tag"] == "B4"
    assert plate["rated_voltage"] == 460
    assert "rack" not in plate


@pytest.mark.parametrize(
    ("body", "pointer"), [({"site": None}, "/body/site"), ({"rated_voltage": "many"}, "/body/rated_voltage")]
)
def test_a_correction_leaves_the_thing_well_formed(okafor: Phone, body: dict[str, Any], pointer: str) -> None:
    told = story(okafor)
    okafor.keep(*told.entries)
    result = okafor.push(okafor.make("machine", body, base=[told.machine]))["results"][0]
    assert (result["code"], result["errors"][0]["pointer"]) == ("invalid_body", pointer)


def test_of_two_corrections_of_one_base_the_earlier_holds_until_settled(okafor: Phone) -> None:
    told = story(okafor)
    okafor.keep(*told.entries)
    one = okafor.write("machine", {"tag": "B4"}, base=[told.machine])
    other = okafor.write("machine", {"tag": "B5", "rack": "C"}, base=[told.machine])
    machine = okafor.get(f"/machines/{told.machine}")
    assert (machine["tag"], machine["rack"]) == ("B4", "C")
    okafor.write("machine", {"tag": "B5"}, base=[one["id"], other["id"]])
    assert okafor.get(f"/machines/{told.machine}")["tag"] == "B5"


def test_a_retraction_takes_back_and_can_be_taken_back(okafor: Phone) -> None:
    told = story(okafor)
    okafor.keep(*told.entries)
    reading = told.entries[4]["id"]
    taken_back = okafor.write("retraction", {"of": reading, "why": "wrong machine"}, told.call)
    assert okafor.get(f"/calls/{told.call}/case")["rounds"][0]["readings"] == []
    okafor.write("retraction", {"of": taken_back["id"], "why": "it was right"}, told.call)
    assert len(okafor.get(f"/calls/{told.call}/case")["rounds"][0]["readings"]) == 1
    assert okafor.get(f"/calls/{told.call}")["rounds"][0]["readings"] == 1


def test_a_whole_batch_is_bounded(okafor: Phone) -> None:
    sign = {"sign": "knock", "present": True}
    body = {"device": okafor.device, "entries": [okafor.make("sign", sign, str(uuid.uuid4()))] * 501}
    answer = okafor.http.post("/api/v1/entries", json=body)
    assert (answer.status_code, answer.json()["code"]) == (413, "batch_too_large")


def test_another_epoch_asks_for_everything(okafor: Phone) -> None:
    answer = okafor.http.post("/api/v1/entries", json={"device": okafor.device, "epoch": "old", "entries": []})
    assert (answer.status_code, answer.json()["code"]) == (409, "epoch_changed")
    assert answer.json()["epoch"] == okafor.get("/health")["epoch"]


def test_a_key_writes_as_a_device_of_its_own_name(house: House) -> None:
    scheduler = house.key("scheduler", "read", "write")
    told = story(scheduler)
    scheduler.keep(*told.entries)
    assert {item["author"] for item in scheduler.pull()} == {"scheduler"}


def test_a_reading_key_writes_nothing(house: House) -> None:
    reader = house.key("spreadsheet", "read")
    answer = reader.http.post("/api/v1/entries", json={"device": reader.device, "entries": []})
    assert (answer.status_code, answer.json()["code"]) == (403, "not_allowed")


def test_text_that_no_database_keeps_is_refused_alone(okafor: Phone) -> None:
    told = story(okafor)
    nul = okafor.make("submission", {"note": "a\x00b"}, told.call)
    body = json.dumps({"device": okafor.device, "entries": [*told.entries, nul, "HALF"]})
    half = json.dumps(okafor.make("submission", {"note": "X"}, told.call)).replace('"X"', '"\\ud800"')
    huge = json.dumps(okafor.make("line", {"kind": "part", "what": "fuse", "price": 7}, told.call)).replace(
        "7}", "1e999}"
    )
    answer = okafor.http.post("/api/v1/entries", content=body.replace('"HALF"', f"{half}, {huge}"))
    assert statuses(answer.json()) == ["accepted"] * 5 + ["invalid_body"] * 3


def test_a_backslash_is_no_nul_and_depth_is_bounded(okafor: Phone) -> None:
    told = story(okafor)
    plain = okafor.make("submission", {"note": "a \\u0000 typed out"}, told.call)
    inside: dict[str, Any] = {}
    for _ in range(100):
        inside = {"in": inside}
    deep = okafor.make("submission", {"extra": inside}, told.call)
    assert statuses(okafor.push(*told.entries, plain, deep)) == ["accepted"] * 6 + ["invalid_body"]


def test_a_long_name_is_kept_whole(okafor: Phone) -> None:
    """Longer, and packed worse, than what PostgreSQL takes into an index."""
    long = "".join(chr(0x4E00 + 7919 * place % 20000) for place in range(3990))
    told = story(okafor)
    okafor.keep(*told.entries)
    okafor.write("machine", {"tag": long, "rack": long[::-1]}, base=[told.machine])
    okafor.write("call", {"assigned_to": long}, told.call, base=[told.call])
    okafor.write("submission", {}, told.call, device=long)
    machine = okafor.get(f"/machines/{told.machine}")
    assert (machine["tag"], machine["rack"]) == (long[:200], long[::-1][:200]), "where it is listed, its beginning"
    assert okafor.get(f"/calls/{told.call}")["assigned_to"] == long[:200]
    corrected = {entry["kind"]: entry["body"] for entry in okafor.pull() if entry["base"]}
    assert corrected == {"machine": {"tag": long, "rack": long[::-1]}, "call": {"assigned_to": long}}


def test_pulls_are_gzipped(okafor: Phone) -> None:
    okafor.keep(*story(okafor).entries)
    request = okafor.http.build_request("GET", "/api/v1/entries", headers={"Accept-Encoding": "gzip"})
    answer = okafor.http.send(request, stream=True)
    raw = b"".join(answer.iter_raw())
    assert answer.headers["content-encoding"] == "gzip"
    assert len(json.loads(gzip.decompress(raw))["items"]) == 5


def test_two_phones_pushing_at_once_share_one_order(house: House) -> None:
    """No cursor is given twice and none is skipped, whoever commits first."""
    phones = [house.phone(f"Technician {number}") for number in range(4)]
    told = [story(phone, f"T{number}") for number, phone in enumerate(phones)]

    def work(number: int) -> None:
        phone = phones[number]
        phone.keep(*told[number].entries)
        for _ in range(10):
            phone.keep(*(phone.make("reading", line_voltage(told[number].round), told[number].call) for _ in range(5)))

    with ThreadPoolExecutor(4) as pool:
        list(pool.map(work, range(4)))
    items = phones[0].pull()
    assert [item["cursor"] for item in items] == list(range(1, 4 * 55 + 1))


def test_a_restored_server_takes_its_own_entries_from_any_phone(house: House, okafor: Phone) -> None:
    """After a restore a phone brings back what it pulled of others; the server knows its seal, and only its own."""
    lindqvist = house.phone("R. Lindqvist")
    told = story(okafor)
    okafor.keep(*told.entries)
    pulled = lindqvist.pull()
    with house.database.writing() as connection:
        for table in ("readings", "rounds", "calls", "machines", "sites", "entries"):
            connection.execute(text(f"DELETE FROM {table}"))
        connection.execute(text("UPDATE log_state SET cursor = 0"))
    forged = pulled[0] | {"body": {"name": "Altered"}}
    answer = lindqvist.push(forged, *pulled)
    assert statuses(answer) == ["forged_author"] + ["accepted"] * 5
    assert [item["author"] for item in lindqvist.pull()] == ["T. Okafor"] * 5


def test_a_body_that_is_no_push_is_refused_whole(okafor: Phone) -> None:
    def code(**request: Any) -> tuple[int, str]:
        answer: httpx.Response = okafor.http.post("/api/v1/entries", **request)
        return answer.status_code, answer.json()["code"]

    assert code(content=b"{") == (400, "not_json")
    assert code(content=b"\xff\xfe") == (400, "not_json")
    assert code(content=b"[" * 100_000) == (400, "not_json")
    assert code(json=[]) == (422, "invalid_query")
    assert code(json={"device": okafor.device, "entries": [], "entrys": []}) == (422, "invalid_query")
    assert code(json={"device": "another", "entries": []}) == (422, "invalid_query")
    assert code(data={"entries": "[]"}) == (415, "media_type")


@pytest.mark.parametrize("member", ["schema", "kind", "call", "base", "made_at", "device", "author", "body"])
def test_an_entry_that_lacks_a_member_is_refused_alone(okafor: Phone, member: str) -> None:
    made = okafor.make("site", {"name": "Tannery Lane Cold Store"})
    del made[member]
    [result] = okafor.push(made)["results"]
    assert (result["status"], result["code"]) == ("refused", "invalid_body")
    assert [fault["pointer"] for fault in result["errors"]] == [f"/{member}"]
