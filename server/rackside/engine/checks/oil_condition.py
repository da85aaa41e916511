"""What does the oil itself say?"""

from ..call import Scene
from ..carry import worse_of_both
from ..check import Check
from ..finding import Finding
from ..limits import COMMON_PRACTICE, FAIL, PASS, WATCH, Source
from ..reading import Reading

COLOUR = Source("oil seen in a clean glass: clear to straw is healthy", "", "", COMMON_PRACTICE)
ACID = Source("acid test kit made for the oil in the machine", "", "", COMMON_PRACTICE)
# A sample this old has let its refrigerant go: what is still milky is water. Source: CHECKS.md, oil_condition.
STOOD_SECONDS = 1800.0
VERDICTS = (
    ("clear", PASS),
    ("straw", PASS),
    ("amber", WATCH),
    ("dark", WATCH),
    ("red-brown", WATCH),
    ("milky", WATCH),
    ("black", FAIL),
    ("glitter", FAIL),
    ("negative", PASS),
    ("positive", FAIL),
)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the colour of the oil, or its acid test; the worse of the two carries."""
    key = reading.word
    verdict = [found for word, found in VERDICTS if word == key][0]
    if key == "milky" and (reading.number("seconds") or 0.0) >= STOOD_SECONDS:
        key, verdict = "milky_after_standing", FAIL
    finding = Finding(CHECK.name, verdict, [reading.id])
    finding.detail["point"] = reading.point.name
    finding.detail["word"] = reading.word
    finding.detail["source"] = (ACID if reading.point.name == "oil_acid" else COLOUR).as_json()
    finding.say("oil_condition." + key)
    if reading.point.name == "oil_acid":
        oil = scene.machine.word("oil")
        finding.say("oil_condition.kit_for" if oil else "oil_condition.kit", {"oil": oil})
    return finding


CHECK = Check(
    name="oil_condition",
    reads=("oil_colour", "oil_acid"),
    unit="",
    formula="colour: clear or straw passes, amber, dark, red-brown or milky is watched, black, glitter or milky after "
    "30 min of standing fails; acid: negative passes, positive fails",
    limits=(),
    sources=(COLOUR, ACID),
    example={
        "readings": [{"point": "oil_colour", "value": "straw"}, {"point": "oil_acid", "value": "positive"}],
        "value": None,
        "verdict": "fail",
        "source": "CHECKS.md, oil_condition: a positive acid test fails whatever the colour",
    },
    find=find,
    carry=worse_of_both,
    judges=("oil_colour", "oil_acid"),
)
