"""Every row of our collection of check values is a test, or is left out for a reason given here."""

import json
import re
from pathlib import Path

import pytest

HERE = Path(__file__).parent
ROWS = HERE.parents[2] / "shared" / "handbook" / "worked_examples.json"
TESTED = {
    "test_worked_examples_electrical.py": """
        1.1 1.3 1.5 1.7 1.9 1.11 1.13 1.15 1.17 1.19 1.21 1.23 1.25 1.27 1.29 2.9 2.11 2.15 2.17 3.1 3.3 3.5 3.7 3.9
        3.13 4.1 4.3 4.5 4.7 4.9 4.13 4.15 5.3 5.5 5.7 6.1 6.3 6.5 6.17 6.19 6.23 8.1 8.3 8.5 8.7 8.9 8.11 8.13 8.15
        8.17""",
    "checks/test_fan_capacitance.py": "7.1 7.3 7.5",
    "checks/test_compression_ratio.py": "9.1",
    "checks/test_net_oil_pressure.py": "9.3 9.5",
    "test_saturation.py": """
        9.7 9.11 9.13 9.15 9.17 9.19 9.21 9.23 9.25 9.27 9.29 9.31 9.33 9.35 9.37 9.39 9.41 9.43""",
    "checks/test_suction_superheat.py": "9.45 9.47 9.49 9.51",
    "checks/test_subcooling.py": "9.53 9.55 9.57",
}
LEFT_OUT = {
    "1.31": "energy wasted in a year: money is no judgement",
    "2.1": "service range: the check uses the utilization range",
    "2.3": "service range: the check uses the utilization range",
    "2.5": "utilization minimum of editions before 2011",
    "2.7": "utilization minimum of editions before 2011",
    "2.13": "125 V base: range A already ends at 126 V",
    "2.19": "why 460 V is plated: history",
    "3.11": "percent of range: a meter's limit here is percent of reading and counts",
    "4.11": "kV + 1 is for windings before 1970",
    "5.1": "3 % of line volts as a pole's limit would be over 500 W in one pole",
    "5.9": "thermography: a joint's temperature is recorded, no check judges it",
    "5.11": "thermography: a joint's temperature is recorded, no check judges it",
    "5.13": "thermography: a joint's temperature is recorded, no check judges it",
    "5.15": "thermography: a joint's temperature is recorded, no check judges it",
    "6.7": "NEC table by horsepower: a hermetic motor's plate gives its own",
    "6.9": "NEC table by horsepower: a hermetic motor's plate gives its own",
    "6.11": "NEC table by horsepower: a hermetic motor's plate gives its own",
    "6.13": "NEC table by horsepower: a hermetic motor's plate gives its own",
    "6.15": "NEC table by horsepower: a hermetic motor's plate gives its own",
    "6.21": "single-phased current at equal power: the check compares legs of one moment and predicts none",
    "9.9": "R-404A at 150 F: past the tables' end at 65 C",
    "10.1": "approach distances: the employer's rule and the label decide, no check measures a distance",
    "10.3": "approach distances: the employer's rule and the label decide, no check measures a distance",
    "10.5": "bleed resistor: discharging is a caution at the step, no reading is judged by it",
}


def numbers_tested() -> list[str]:
    return [number for numbers in TESTED.values() for number in numbers.split()]


@pytest.mark.skipif(not ROWS.exists(), reason="the collection does not lie beside this checkout")
def test_every_row_is_a_test_or_left_out_for_a_reason() -> None:
    rows = [row["id"] for row in json.loads(ROWS.read_text(encoding="utf-8"))]
    assert sorted(rows) == sorted([*numbers_tested(), *LEFT_OUT])


@pytest.mark.parametrize("file", TESTED)
def test_the_file_names_each_row_it_tests(file: str) -> None:
    text = re.sub(r"def test_(\d+)_(\d+)", r"\1.\2", (HERE / file).read_text(encoding="utf-8"))
    named = set(re.findall(r"(?<![\d.])\d+\.\d+(?![\d.])", text))
    for low, high in re.findall(r"(?<![\d.])(\d+\.\d+) to (\d+\.\d+)(?![\d.])", text):
        series = [int(end.split(".")[1]) for end in (low, high)]
        named |= {f"{low.split('.')[0]}.{place}" for place in range(series[0], series[1] + 1)}
    assert set(TESTED[file].split()) - named == set()
