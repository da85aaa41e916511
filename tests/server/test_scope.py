"""What a person with some sites may write, and how their sites grow: by what they enter themselves, by nothing else."""

from typing import Any

from rackside.access import people
from tests.server.house import House, Phone, story


def sites_of(phone: Phone) -> list[str]:
    return phone.get("/me")["sites"]


def test_a_site_of_ones_own_sites_is_corrected_as_often_as_need_be(house: House) -> None:
    told = story(okafor := house.phone("T. Okafor"))
    okafor.keep(*told.entries)
    limited = house.phone("R. Lindqvist", sites=[told.site])
    last = told.site
    for number in range(3):
        last = limited.write("site", {"address": f"{number} Tannery Lane"}, base=[last])["id"]
    assert sites_of(limited) == [told.site]


def test_a_site_the_office_had_named_before_it_came_is_taken(house: House) -> None:
    """A table of people may name sites whose entries are still on a phone."""
    limited = house.phone("R. Lindqvist", sites=[])
    site = limited.make("site", {"name": "Tannery Lane Cold Store"})
    with house.database.writing() as connection:
        people.set_sites(connection, people.id_of(connection, "R. Lindqvist"), [site["id"]])
    limited.keep(site)
    assert sites_of(limited) == [site["id"]]


def test_what_a_phone_brings_back_of_others_is_taken_and_shows_its_person_nothing_more(house: House) -> None:
    """After a restore: the entries bear this log's seal, but their site is not the carrier's any more."""
    okafor = house.phone("T. Okafor")
    told = story(okafor)
    okafor.keep(*told.entries)
    sealed = [without_place(entry) for entry in okafor.pull()]
    lindqvist = house.phone("R. Lindqvist", sites=[])
    with house.database.writing() as connection:
        for table in ("readings", "rounds", "calls", "machines", "sites", "entries"):
            connection.exec_driver_sql(f"DELETE FROM {table}")
    lindqvist.keep(*sealed)
    assert {entry["id"] for entry in okafor.pull()} == {entry["id"] for entry in told.entries}
    assert sites_of(lindqvist) == []
    forged = [entry | {"seal": "0" * 32} for entry in story(lindqvist).entries[1:]]
    forged[0]["body"]["site"] = told.site
    assert lindqvist.push(forged[0])["results"][0]["code"] == "foreign_site"


def without_place(entry: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in entry.items() if name not in ("cursor", "received_at")}
