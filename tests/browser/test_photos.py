"""Photos: shrunk and upright on the phone, kept with their entry, sent after it, freed then, shown from the office."""

import io
import re
from pathlib import Path

import httpx
import pytest
from PIL import Image
from playwright.sync_api import expect

from seed_demo.people import CASTELLANOS
from tests.browser.places import entries_of, held, office_client
from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

ORIENTATION, TURNED_RIGHT = 0x0112, 6
MAKE = 0x010F
# The server as after a restored older backup: each push is answered with a photo it lacks, and it has none to give.
WANTS = """
    const ask = self.fetch;
    self.asked = [];
    self.fetch = async (url, request = {}) => {
        if (String(url).includes("/photos/")) {
            self.asked.push(request.method ?? "GET");
            return new Response("{}", { status: 404 });
        }
        const answer = await ask(url, request);
        if (request.method !== "POST" || !String(url).endsWith("/entries")) return answer;
        self.asked.push("POST");
        return Response.json({ ...(await answer.json()), photos_wanted: ["SHA256"] });
    };
"""


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
    person.settle_in()
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


def test_a_photo_gets_a_persons_words_and_the_office_reads_them(
    demo: Server, technician: Technician, snapshot: Path
) -> None:
    page = technician.page
    technician.phone.context.set_offline(True)
    take(technician, "Panel", snapshot)
    page.locator(".photos a").click()
    page.get_by_label("What it shows, in your words").fill("pole two, burnt")
    page.get_by_role("button", name="Keep the words").click()
    expect(page.get_by_role("button", name="Keep the words")).to_have_count(0)
    technician.go(f"#/call/{technician.call}/photos")
    expect(page.get_by_role("link", name=re.compile("^Panel, pole two, burnt, "))).to_be_visible()
    assert technician.waiting() == 2
    technician.phone.context.set_offline(False)
    technician.wait_until_sent()
    with httpx.Client(base_url=demo.url, trust_env=False, timeout=30, headers={"origin": demo.url}) as office:
        office.post("/office/sign-in", data={"name": CASTELLANOS.name, "password": CASTELLANOS.password})
        assert "pole two, burnt" in office.get(f"/office/calls/{technician.call}").text


def test_a_photo_the_office_lost_is_told_once_and_never_chased(
    demo: Server, technician: Technician, snapshot: Path
) -> None:
    page = technician.page
    take(technician, "Oil", snapshot)
    technician.wait_until_sent()
    [photo] = [one for one in entries_of(demo, technician.call) if one["kind"] == "photo"]
    page.context.add_init_script(WANTS.replace("SHA256", photo["body"]["sha256"]))
    page.reload()
    technician.read("as_found", "oil_level", {"value": "0.5"})
    technician.wait_until_sent()
    expect(page.get_by_text("The office asks for 1 photo that this phone sent")).to_be_visible()
    asked = page.evaluate("self.asked")
    page.get_by_role("link", name="Show it").click()
    expect(page.locator(".photo-large")).to_contain_text("the office has it no more")
    page.wait_for_timeout(1500)
    assert page.evaluate("self.asked") == [*asked, "GET"], "opened once, and neither sent nor asked for again"
    page.reload()
    technician.go("#/")
    page.get_by_role("button", name="Put away").click()
    expect(page.get_by_text("The office asks for")).to_have_count(0)


def test_the_plates_photo_stands_beside_the_fields_typed_from_it(technician: Technician, snapshot: Path) -> None:
    page = technician.page
    technician.go(f"#/call/{technician.call}/sheet/machine/plate")
    page.get_by_label("Serial", exact=False).fill("77-104")
    page.get_by_label("Plate", exact=True).set_input_files(snapshot)
    expect(page.locator("img.photo-beside")).to_be_visible(timeout=20_000)
    expect(page.get_by_label("Serial", exact=False)).to_have_value("77-104")
    page.get_by_label("Serial", exact=False).scroll_into_view_if_needed()
    expect(page.locator("img.photo-beside")).to_be_in_viewport()
