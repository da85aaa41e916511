"""The facts of the handbook's case files in all three outputs, and what none of them may say."""

import re
from collections.abc import Callable

import pytest

from rackside.reports import outputs
from rackside.reports.sheet import Json
from rackside.reports.text import name
from tests.engine.case_files import CASES
from tests.reports.sheets import sheet_of, told

NEVER = re.compile(r"\b(compliant|certified|is safe|are safe|is dead|all clear|guaranteed)\b", re.I)
CAUTION = re.compile(r"It says what was measured, when, .*? instructions come first\.")
MADE = {title: make for title, make, _, _ in CASES}
WRONG = {title: never for title, _, _, never in CASES}
# What the customer reads of each, from the handbook: the number that tells.
NUMBERS = {
    "F1": "Overload setting 70.6 % fail",
    "F2": "Voltage unbalance 1.78 % watch 0.209 % pass in between",
    "F4": "Net oil pressure 11 psi fail",
    "F6": "Crankcase heater -100 % fail",
    "F7": "Insulation 275 MΩ pass not measured",
    "F10": "Head fan capacitor -48 % fail",
}
# What the warranty file lists as read: the place, the values, the conditions.
READ = {
    "F1": "Winding ohms T1-T2 0.523 Ω T2-T3 0.527 Ω T3-T1 0.525 Ω locked out, leads off",
    "F2": "Running amps L1 39.2 A L2 35.4 A L3 31.6 A running",
    "F4": "Contactor pole drop L1-T1 38 mV L2-T2 41 mV L3-T3 44 mV running",
    "F6": "Insulation at 60 s 14 MΩ locked out, leads off",
    "F7": "Insulation at 60 s 1100 MΩ locked out, leads off",
    "F10": "Head fan capacitor 2.6 µF locked out",
}


@pytest.fixture(params=list(MADE))
def case(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def judged(case: str) -> Json:
    make: Callable[[], Json] = MADE[case]
    return sheet_of(make())


def bare(text: str) -> str:
    """Return text without what the meter can't tell, to compare with a handbook's bare numbers."""
    return re.sub(r" ± [\d.]+", "", text)


def test_the_customer_reads_the_number_that_tells(case: str) -> None:
    assert NUMBERS[case] in bare(told(judged(case), "customer"))


def test_the_warranty_file_holds_the_reading_as_read(case: str) -> None:
    assert READ[case] in told(judged(case), "warranty")


def test_every_finding_stands_in_the_warranty_file_in_the_engines_own_words(case: str) -> None:
    sheet = judged(case)
    file = told(sheet, "warranty")
    findings = [finding for round_ in sheet["result"]["rounds"] for finding in round_["findings"]]
    assert findings
    for finding in findings:
        assert finding["because"] in file


def test_wrong_causes_are_ruled_out_for_the_next_technician(case: str) -> None:
    sheet = judged(case)
    contradicted = {cause["cause"] for cause in sheet["result"]["causes"] if cause["against"]}
    ruled_out = told(sheet, "next").split("Already ruled out")[1].split("Last good numbers")[0]
    for cause in WRONG[case]:
        if cause in contradicted:
            assert name("cause", cause) in ruled_out


@pytest.mark.parametrize("kind", outputs.OUTPUTS)
def test_it_carries_the_caution_and_the_sites_clock_and_promises_nothing(case: str, kind: outputs.Kind) -> None:
    sheet = judged(case)
    text = told(sheet, kind)
    assert len(CAUTION.findall(text)) == 1
    assert text.count("All times: America/Chicago, the site's clock.") == 1
    engine = " ".join(fact["text"] for cause in sheet["result"]["causes"] for fact in cause["for"] + cause["against"])
    said = NEVER.findall(CAUTION.sub("", text))
    assert set(said) <= set(NEVER.findall(engine))
