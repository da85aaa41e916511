"""Photos: shrunk and upright on the phone, kept with their entry, sent after it, freed then, shown from the office."""

import io
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import expect

from tests.browser.places import entries_of, held, office_client
from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

ORIENTATION, TURNED_RIGHT = 0x0112, 6
MAKE = 0x010F


@pytest.fixture(scope="module")
def snapshot(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A large noisy picture as a camera gives it: on its side, with the turn and its maker in its hidden data."""
    picture = Image.effect_noise((2400, 1800), 90).convert("RGB")
    picture.paste((220, 30, 30), (0, 0, 240, 1800))
    hidden = Image.Exif()
    hidden[ORIENTATION], hidden[MAKE] = TURNED_RIGHT, "camera"
    path = tmp_path_factory.mktemp("camera") / "snapshot.jpg"
    picture.save(path, quality=95, exif=hidden)
    assert path.stat().st_size > 2_000_000
    return path


@pytest.fixture
def technician(demo: Server, phone: Phone) -> Technician:
    person = Technician(phone, demo.url)
    person.sign_in()
    person.wait_until_ready()
    person.open_call("B3")
    return person


def take(technician: Technician, subject: str, picture: Path) -> None:
    technician.go(f"#/call/{technician.call}/photos")
    technician.page.get_by_label(subject, exact=True).set_input_files(picture)
    expect(technician.page.locator(".photo-small")).to_have_count(1, timeout=20_000)


def test_a_photo_survives_the_basement_and_leaves_its_room_when_sent(
    demo: Server, technician: Technician, snapshot: Path
) -> None:
    page = technician.page
    technician.phone.context.set_offline(True)
    take(technician, "Alarm", snapshot)
    assert (held(page, "photos"), technician.waiting()) == (1, 1)
    page.reload()
    technician.go(f"#/call/{technician.call}/photos")
    expect(page.locator("img.photo-small")).to_be_visible()
    page.locator(".photos a").click()
    expect(page.locator("img.photo-large")).to_be_visible()
    expect(page.get_by_text("kept on this phone, not yet sent")).to_be_visible()

    technician.phone.context.set_offline(False)
    technician.wait_until_sent()
    [entry] = [one for one in entries_of(demo, technician.call) if one["kind"] == "photo"]
    with office_client(demo) as client:
        content = client.get(f"/photos/{entry['body']['sha256']}").raise_for_status().content
    sent = Image.open(io.BytesIO(content))
    assert len(content) == entry["body"]["size"] <= 2_000_000
    assert (sent.format, sent.size[0] < sent.size[1], dict(sent.getexif())) == ("JPEG", True, {})
    red, green, _ = sent.getpixel((sent.size[0] // 2, 20))
    assert red > 150 > green, "the picture's left side is its top once upright"
    assert held(page, "photos") == 0


def test_a_photo_of_another_phone_is_asked_for_and_its_absence_told(
    demo: Server, technician: Technician, snapshot: Path
) -> None:
    page = technician.page
    take(technician, "Panel", snapshot)
    technician.wait_until_sent()
    page.reload()
    technician.phone.context.set_offline(True)
    technician.go(f"#/call/{technician.call}/photos")
    expect(page.locator(".photo-small.is-missing")).to_have_text("at the office")
    page.locator(".photos a").click()
    expect(page.get_by_text("No line to the office. It is kept there.")).to_be_visible()
    technician.phone.context.set_offline(False)
    page.get_by_role("button", name="Get it from the office").click()
    expect(page.locator("img.photo-large")).to_be_visible()


def test_a_photo_beside_a_reading_names_the_reading(demo: Server, technician: Technician, snapshot: Path) -> None:
    page = technician.page
    technician.read("as_found", "oil_level", {"value": "0.5"})
    page.locator('.photos-beside input[type="file"]').set_input_files(snapshot)
    expect(page.locator("img.photo-small")).to_be_visible(timeout=20_000)
    technician.wait_until_sent()
    log = entries_of(demo, technician.call)
    [photo] = [one for one in log if one["kind"] == "photo"]
    [reading] = [one for one in log if one["kind"] == "reading"]
    assert (photo["body"]["of"], photo["body"]["shows"]) == (reading["id"], "oil")


def test_what_is_no_picture_is_told_and_nothing_is_kept(technician: Technician, tmp_path: Path) -> None:
    broken = tmp_path / "broken.jpg"
    broken.write_bytes(b"not a picture")
    technician.go(f"#/call/{technician.call}/photos")
    technician.page.get_by_label("Oil", exact=True).set_input_files(broken)
    expect(technician.page.get_by_text("Nothing was kept; take it again.")).to_be_visible()
    assert held(technician.page, "photos") == 0
