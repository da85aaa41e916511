"""A phone's file at the office: taken as its author's, told entry by entry, and never as somebody else's."""

import base64
import io
import json
from hashlib import sha256

import pytest
from PIL import Image

from seed_demo.people import OKAFOR
from seed_demo.story import Story
from tests.office.desk import Desk, Kept, keep_story, words
from tests.server.house import Phone

KIND = "rackside unsent entries"


def file_of(*entries: dict, photos: tuple = ()) -> bytes:
    told = {"file": KIND, "version": 1, "entries": list(entries), "photos": list(photos)}
    return json.dumps(told).encode()


def take_in(desk: Desk, content: bytes) -> str:
    answer = desk.http.post("/office/import", files={"file": ("unsent.json", content)})
    return words(answer.text)


@pytest.fixture
def phone(kept: Kept) -> Phone:
    return kept.phone_of(OKAFOR)


@pytest.fixture
def call(story: Story, kept: Kept) -> str:
    return keep_story(story, kept, "F7")


def test_entries_and_photos_arrive_as_their_author_made_them(desk: Desk, phone: Phone, call: str) -> None:
    picture = io.BytesIO()
    Image.new("RGB", (40, 30), (10, 90, 40)).save(picture, "JPEG")
    name = sha256(picture.getvalue()).hexdigest()
    body = {"sha256": name, "media_type": "image/jpeg", "size": len(picture.getvalue()), "shows": "panel"}
    entry = phone.make("photo", body, call)
    photo = {"sha256": name, "media_type": "image/jpeg", "base64": base64.b64encode(picture.getvalue()).decode()}
    assert "1 taken in, 0 here already, 0 refused 1 photos kept" in take_in(desk, file_of(entry, photos=(photo,)))
    [stored] = [one for one in phone.pull(call=call) if one["id"] == entry["id"]]
    assert {key: stored[key] for key in entry} == entry
    assert phone.http.get(f"/api/v1/photos/{name}").content == picture.getvalue()
    assert "0 taken in, 1 here already" in take_in(desk, file_of(entry))


def test_nobody_is_written_in_the_name_of_by_a_phone_not_theirs(desk: Desk, phone: Phone, call: str) -> None:
    sign = phone.make("sign", {"sign": "knock", "present": True}, call)
    other = sign | {"author": "R. Lindqvist"}
    unknown = sign | {"device": "00000000-0000-4000-8000-000000000000"}
    told = take_in(desk, file_of(other, unknown, {"id": "x"}, 7))
    assert "0 taken in, 0 here already, 4 refused" in told
    assert f"No phone {phone.device} of R. Lindqvist ever signed in here." in told
    assert sign["id"] not in {one["id"] for one in phone.pull(call=call)}


def test_a_review_is_not_smuggled_in(desk: Desk, phone: Phone, call: str) -> None:
    review = phone.make("review", {"outcome": "accepted"}, call)
    assert "A review is written by the office." in take_in(desk, file_of(review))


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"{", "can't be read as JSON"),
        (b"[]", "not a file of unsent entries"),
        (json.dumps({"file": KIND, "version": 2, "entries": []}).encode(), "A newer version wrote this file"),
    ],
)
def test_another_file_is_refused_with_what_to_do(desk: Desk, content: bytes, told: str) -> None:
    assert told in take_in(desk, content)


def test_a_technician_cannot_vouch_for_a_file(kept: Kept) -> None:
    kept.phone_of(OKAFOR)
    stranger = Desk(kept.house).sign_in(OKAFOR.name)
    assert "no right to review" in take_in(stranger, file_of())
