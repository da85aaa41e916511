"""A machine at the office: its plate, limits and map written as corrections, taken out of service, labels, trends."""

import re

import pytest

from seed_demo.people import CASTELLANOS, LINDQVIST, OKAFOR
from seed_demo.story import Story
from tests.office.desk import Desk, Kept, keep_story, words
from tests.server.house import House

MAP = "term,current,power\n" + "\n".join(f"C{number},{30 if number == 1 else 0},0" for number in range(1, 11))


@pytest.fixture
def machine(story: Story, kept: Kept) -> str:
    kept.keep(story)
    return story.machines["A5"]


def hidden(page: str) -> str:
    found = re.search(r'name="seen" value="(\d+)"', page)
    assert found
    return found[1]


def plate_of(kept: Kept, machine: str) -> dict:
    return kept.phone_of(OKAFOR).get(f"/machines/{machine}")["plate"]


def test_a_plate_is_changed_by_one_correction_of_what_changed(desk: Desk, machine: str, kept: Kept) -> None:
    before = plate_of(kept, machine)
    page = desk.get(f"/office/machines/{machine}/plate")
    changes = {"coil_voltage": "24", "fan.capacitance": "7.5", "extra.contactor": "three poles, 50 A"}
    desk.post(f"/office/machines/{machine}/plate", seen=hidden(page), **changes)
    after = plate_of(kept, machine)
    assert after["coil_voltage"] == 24
    assert after["fan"] == before["fan"] | {"capacitance": 7.5}
    assert after["extra"] == {"contactor": "three poles, 50 A"}
    assert {key: value for key, value in after.items() if key not in ("coil_voltage", "fan", "extra")} == {
        key: value for key, value in before.items() if key not in ("coil_voltage", "fan")
    }
    entries = [entry for entry in kept.phone_of(OKAFOR).pull() if machine in entry["base"]]
    assert [(entry["author"], sorted(entry["body"])) for entry in entries] == [
        (CASTELLANOS.name, ["coil_voltage", "extra", "fan"])
    ]
    assert "Plate not yet confirmed" in words(desk.get(f"/office/machines/{machine}"))


def test_a_wrong_value_is_told_at_its_box_and_nothing_is_written(desk: Desk, machine: str, kept: Kept) -> None:
    before, page = plate_of(kept, machine), desk.get(f"/office/machines/{machine}/plate")
    form = {"seen": hidden(page), "rated_load_current": "thirty", "coil_voltage": "24"}
    answer = desk.post(f"/office/machines/{machine}/plate", 422, **form)
    assert "Nothing was written" in answer.text
    assert re.search(r'id="rated_load_current"[^>]*value="thirty"[^>]*aria-invalid="true"', answer.text)
    assert plate_of(kept, machine) == before


def test_a_plate_page_grown_old_is_told_what_changed(desk: Desk, machine: str, kept: Kept) -> None:
    page = desk.get(f"/office/machines/{machine}/plate")
    kept.phone_of(OKAFOR).write("machine", {"oil": "POE 32"}, base=[machine])
    form = {"seen": hidden(page), "coil_voltage": "24"}
    answer = desk.post(f"/office/machines/{machine}/plate", 412, **form)
    assert "T. Okafor: oil is now POE 32" in words(answer.text)
    assert 'value="24"' in answer.text
    assert plate_of(kept, machine)["coil_voltage"] == 120
    desk.post(f"/office/machines/{machine}/plate", **form | {"seen": hidden(answer.text)})
    assert plate_of(kept, machine)["coil_voltage"] == 24
    assert plate_of(kept, machine)["oil"] == "POE 32"


def test_two_versions_of_a_plate_are_picked_from(desk: Desk, machine: str, kept: Kept) -> None:
    kept.phone_of(OKAFOR).write("machine", {"rated_load_current": 36}, base=[machine])
    second = kept.phone_of(LINDQVIST).write("machine", {"rated_load_current": 38}, base=[machine])
    page = words(desk.get(f"/office/machines/{machine}"))
    assert "Two versions: machine, rated load current" in page
    assert "36 T. Okafor" in page
    assert "judged now" in page
    desk.post(f"/office/machines/{machine}/versions", rated_load_current=second["id"])
    assert plate_of(kept, machine)["rated_load_current"] == 38
    assert "Two versions" not in desk.get(f"/office/machines/{machine}")
    assert "Nothing was picked" in words(desk.post(f"/office/machines/{machine}/versions", 422).text)


def test_an_own_limit_is_judged_by_and_can_be_dropped(desk: Desk, story: Story, kept: Kept) -> None:
    call = keep_story(story, kept, "F6")
    machine = story.machines["A1"]
    form = {"check": "net_oil_pressure", "watch_below": "40", "fail_below": "30", "source": "bulletin 7, page 3"}
    desk.post(f"/office/machines/{machine}/limits", **form)
    told = words(desk.get(f"/office/machines/{machine}"))
    assert "watch below 40 psi" in told
    assert "fail below 30 psi" in told
    page = words(desk.get(f"/office/calls/{call}"))
    assert "bulletin 7, page 3" in page
    desk.post(f"/office/machines/{machine}/limits", drop="net_oil_pressure")
    assert "limits" not in plate_of(kept, machine)
    answer = desk.post(f"/office/machines/{machine}/limits", 422, check="net_oil_pressure", watch_below="low")
    assert "watch below: 'low' is no number." in words(answer.text)


def test_a_map_is_drawn_before_it_is_written(desk: Desk, machine: str, kept: Kept) -> None:
    before = plate_of(kept, machine)["ratings"]
    form = {"table": MAP, "order": "ahri-540", "temperature_unit": "F", "suction_low": "-40", "suction_high": "5"}
    form |= {"discharge_low": "70", "discharge_high": "130"}
    page = desk.post(f"/office/machines/{machine}/ratings", 200, **form, step="look").text
    assert 'aria-label="Current by the map: 30 A in the middle of its range"' in page
    assert plate_of(kept, machine)["ratings"] == before
    desk.post(f"/office/machines/{machine}/ratings", **form, step="keep")
    written = plate_of(kept, machine)["ratings"]
    assert written["current"] == [30, 0, 0, 0, 0, 0, 0, 0, 0, 0]
    assert written["envelope"] == {"suction": [-40, 5], "discharge": [70, 130]}


def test_a_wrong_map_is_told_and_the_earlier_one_stays(desk: Desk, machine: str, kept: Kept) -> None:
    before = plate_of(kept, machine)["ratings"]
    file = {"file": ("map.csv", MAP.replace("C4,0,0", "C4,0,none"), "text/csv")}
    form = {"order": "ahri-540", "temperature_unit": "F", "step": "keep"}
    answer = desk.http.post(f"/office/machines/{machine}/ratings", data=form, files=file)
    assert answer.status_code == 422
    assert "Row 5, power: 'none' is no number" in words(answer.text)
    assert plate_of(kept, machine)["ratings"] == before


def test_out_of_service_a_machine_is_hidden_but_never_gone(desk: Desk, story: Story, kept: Kept) -> None:
    call, machine = keep_story(story, kept, "F4"), story.machines["B1"]
    place = f"/office/machines/{machine}"
    desk.post(f"{place}/service", retired="yes")
    assert place not in desk.get("/office/machines")
    assert place not in desk.get(f"/office/sites/{story.site}")
    assert place in desk.get("/office/machines?retired=yes")
    page = desk.get(place)
    assert "Out of service" in page
    assert f"/office/calls/{call}" in page
    assert "B1" in words(desk.get(f"/office/calls/{call}"))
    desk.post(f"{place}/service", retired="no")
    assert place in desk.get("/office/machines")


def test_a_technician_reads_but_does_not_change(machine: str, kept: Kept) -> None:
    kept.phone_of(LINDQVIST)
    reader = Desk(kept.house).sign_in(LINDQVIST.name)
    assert "Change the plate" not in reader.get(f"/office/machines/{machine}")
    reader.get(f"/office/machines/{machine}/plate", 403)
    reader.post(f"/office/machines/{machine}/service", 403, retired="yes")
    reader.post(f"/office/machines/{machine}/ratings", 403, table=MAP, step="keep")


def test_labels_lead_to_their_machine(desk: Desk, story: Story, kept: Kept, house: House) -> None:
    kept.keep(story)
    page = desk.get(f"/office/sites/{story.site}/labels")
    codes = re.findall(r'class="code">([^<]+)<', page)
    assert len(codes) == len(set(codes)) == 11
    assert page.count(f'aria-label="QR picture of {house.url}/m/') == 11
    first = codes[0].replace(" ", "")
    answer = desk.http.get(f"/office/m/{first.lower()}")
    assert answer.status_code == 303
    assert answer.headers["location"] == f"/office/machines/{story.machines['A1']}"
    assert "No machine has the code" in words(desk.get("/office/m/222222", 404))


def test_trends_show_every_visit_and_open_its_call(desk: Desk, story: Story, kept: Kept) -> None:
    call = keep_story(story, kept, "F4")
    kept.phone_of(CASTELLANOS).get(f"/calls/{call}/results")
    page = desk.get(f"/office/machines/{story.machines['B1']}/trends")
    poles = re.search(r'<section class="plot" id="poles">(.*?)</section>', page, re.S)
    assert poles
    assert f'href="/office/calls/{call}"' in poles[1]
    assert "<polyline" in poles[1]
    assert "All times: America/Chicago" in words(page)
    assert 'data-zone="America/Chicago"' in page
    empty = words(desk.get(f"/office/machines/{story.machines['A6']}/trends"))
    assert "nothing to draw" in empty
