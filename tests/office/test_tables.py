"""Tables pasted at the office: a fault is told row by row, and with one fault nothing is taken."""

import pytest

from rackside.office import limits_form, ratings_form, register_form

SITE = "6b6b2c0e-5a1b-4a58-9c66-0d3d7e2d9a11"
GOOD = "term;current\n" + "\n".join(f"C{number};{number}.5" for number in range(1, 11))


def test_a_map_is_read_by_its_terms_whatever_their_order() -> None:
    first, *rows = GOOD.splitlines()
    read = ratings_form.read("\n".join([first, *reversed(rows)]))
    assert read.faults == []
    assert read.ratings == {"current": [number + 0.5 for number in range(1, 11)]}


@pytest.mark.parametrize(
    ("table", "told"),
    [
        ("", "Nothing was pasted"),
        (GOOD.replace("current", "amps"), "Column 2 is called 'amps'"),
        (GOOD.replace("term", "row"), "A column named term is missing"),
        (GOOD.replace("C3;3.5", "C3;3,5"), "Row 4, current: '3,5' is no number"),
        (GOOD.replace("C3;3.5", "C3;3.5;9"), "Row 4 has 3 cells; the first row names 2 columns."),
        (GOOD.replace("C10;10.5", ""), "Missing: C10."),
        (GOOD.replace("C2;2.5", "C1;2.5"), "Row 3 is 'C1': the rows are C1 to C10, each once."),
        (GOOD.replace("C4;4.5", "C4;nan"), "Row 5, current: 'nan' is no number"),
        ("term,power\n" * 5000, "characters long"),
    ],
)
def test_a_wrong_map_says_where_and_takes_nothing(table: str, told: str) -> None:
    read = ratings_form.read(table)
    assert read.ratings == {}
    assert told in " ".join(read.faults)


def test_an_envelope_has_both_ends_in_order() -> None:
    assert ratings_form.envelope({"suction_low": "-40", "suction_high": "5"}) == ({"suction": [-40.0, 5.0]}, [])
    assert "both ends" in ratings_form.envelope({"suction_low": "-40"})[1][0]
    assert "lower end comes first" in ratings_form.envelope({"discharge_low": "130", "discharge_high": "70"})[1][0]


def test_machines_are_read_with_their_parts() -> None:
    table = "tag\track\trated_load_current\toil_control.cut_out\tfan.capacitance\nC1\tC\t34\t9\t5\nC2\tC\t\t\t\n"
    read = register_form.read(table, SITE, set())
    assert read.faults == []
    assert read.bodies[0] == {
        "site": SITE,
        "tag": "C1",
        "rack": "C",
        "rated_load_current": 34,
        "oil_control": {"unit": "psi", "cut_out": 9},
        "fan": {"capacitance": 5},
    }
    assert read.bodies[1] == {"site": SITE, "tag": "C2", "rack": "C"}


def test_every_wrong_row_of_machines_is_told_and_none_is_taken() -> None:
    table = "tag,type,rated_load_current\nC1,welded-scroll,34\n,welded-scroll,34\nC3,rotary,34\nC1,,20\nA1,,x\nC5\n"
    read = register_form.read(table, SITE, {"A1"})
    assert read.bodies == []
    told = "\n".join(read.faults)
    assert "Row 3: the tag is missing." in told
    assert "Row 4: type: Must be one of:" in told
    assert "Row 5: the tag 'C1' is there already." in told
    assert "Row 6: the tag 'A1' is there already." in told
    assert "Row 6: rated_load_current:" in told
    assert "Row 7: 1 cells; the first row names 3 columns." in told
    assert "Row 2" not in told


@pytest.mark.parametrize("table", ["name,rack\nC1,C\n", "tag,tag\nC1,C1\n", "tag\n", ""])
def test_wrong_columns_stop_before_the_rows(table: str) -> None:
    read = register_form.read(table, SITE, set())
    assert read.bodies == []
    assert read.faults


def test_an_own_limit_names_its_bulletin_and_keeps_its_order() -> None:
    form = {"check": "net_oil_pressure", "watch_below": "18", "fail_below": "12", "source": "bulletin 7, page 3"}
    check, limit, faults = limits_form.read(form, {"net_oil_pressure": "psi"})
    assert (check, faults) == ("net_oil_pressure", [])
    assert limit == {"unit": "psi", "source": "bulletin 7, page 3", "watch": {"below": 18.0}, "fail": {"below": 12.0}}
    wrong = {"check": "net_oil_pressure", "watch_below": "10", "fail_below": "12", "source": ""}
    told = " ".join(limits_form.read(wrong, {"net_oil_pressure": "psi"})[2])
    assert "watch limit below lies beyond" in told
    assert "Say where the number stands" in told
    assert "Choose the check" in limits_form.read({"check": "luck"}, {})[2][0]
