"""A machine's plate as a form: what may be written, and what came back changed. Pure."""

import re
from typing import Any, NamedTuple

from rackside.engine import vocabulary
from rackside.engine.say import title
from rackside.sync import forms

Json = dict[str, Any]
NUMBER = re.compile(r"-?\d{1,9}(\.\d{1,9})?")
PAIR = re.compile(r"(\d+(?:\.\d+)?)\s*/\s*(\d+(?:\.\d+)?)")


class Field(NamedTuple):
    """One box of the form. `place` is a member of the body, or member.part; `choices` make it a list."""

    place: str
    label: str
    unit: str = ""
    choices: tuple[str, ...] = ()
    text: bool = False


GROUPS: tuple[tuple[str, tuple[Field, ...]], ...] = (
    (
        "Name",
        (
            Field("tag", "Tag", text=True),
            Field("rack", "Rack", text=True),
            Field("model", "Model", text=True),
            Field("serial", "Serial", text=True),
            Field("type", "Type", choices=tuple(vocabulary.TYPES)),
            Field("application", "Application", choices=vocabulary.APPLICATIONS),
            Field("stage", "Stage", choices=vocabulary.STAGES),
            Field("refrigerant", "Refrigerant", choices=vocabulary.REFRIGERANTS),
            Field("oil", "Oil", text=True),
        ),
    ),
    (
        "Motor",
        (
            Field("rated_voltage", "Rated volts", "V"),
            Field("rated_frequency", "Rated frequency", "Hz"),
            Field("rated_load_current", "Rated load amps", "A"),
            Field("max_continuous_current", "Maximum continuous amps", "A"),
            Field("locked_rotor_current", "Locked rotor amps", "A"),
            Field("locked_rotor_current_half", "Locked rotor amps, first half", "A"),
            Field("winding_resistance_25c", "Winding at 25 °C", "ohm"),
            Field("start", "Start", choices=vocabulary.STARTS),
            Field("insulation_minimum", "Maker's insulation minimum", "Mohm"),
            Field("protector.kind", "Motor protector", choices=vocabulary.PROTECTORS),
            Field("protector.trip", "Protector trips at", "ohm"),
            Field("protector.reset", "Protector resets at", "ohm"),
        ),
    ),
    (
        "Contactor and overload",
        (
            Field("coil_voltage", "Contactor coil", "V"),
            Field("control_voltage", "Control volts", "V"),
            Field("extra.contactor", "Contactor plate, as printed", text=True),
            Field("overload_setting", "Overload dial by the drawing", "A"),
            Field("overload.place", "Overload sits in", choices=vocabulary.OVERLOAD_PLACES),
            Field("overload.ratio", "Overload transformer ratio"),
            Field("overload.trip_factor", "Overload trips at dial times"),
        ),
    ),
    (
        "Head fan and heater",
        (
            Field("fan.rated_current", "Fan amps", "A"),
            Field("fan.rated_voltage", "Fan volts", "V"),
            Field("fan.rated_speed", "Fan speed", "rpm"),
            Field("fan.capacitance", "Fan capacitor", "uF"),
            Field("heater.power", "Crankcase heater", "W"),
            Field("heater.voltage", "Heater volts", "V"),
        ),
    ),
    (
        "Oil",
        (
            Field("oil_control.cut_out", "Oil control cuts out", "psi"),
            Field("oil_control.cut_in", "Oil control cuts in", "psi"),
            Field("oil_control.delay", "Oil control waits", "s"),
            Field("oil_pump", "Oil pump", choices=vocabulary.OIL_PUMPS),
        ),
    ),
)
FIELDS = tuple(field for _, fields in GROUPS for field in fields)
# A unit that is written down beside its numbers, not implied by the member.
OWN_UNIT = {"oil_control": "psi"}


class Changed(NamedTuple):
    """What a form asks for: members that change, faults by the field's place, faults of no field."""

    members: Json
    faults: dict[str, str]
    other_faults: list[str]


def filled(plate: Json) -> dict[str, str]:
    """Return the text of every box."""
    return {field.place: _shown(_value_at(plate, field.place)) for field in FIELDS}


def unit_word(field: Field, plate: Json) -> str:
    """Return the unit a box is read in: the plate's own where it says one."""
    own = (plate.get(field.place.partition(".")[0]) or {}) if "." in field.place else {}
    stated = own.get("unit") if field.unit == "psi" else None
    return title("unit", stated or field.unit, "en") if field.unit else ""


def choice_words(field: Field) -> list[tuple[str, str]]:
    """Return the choices with their words; a name in capitals, like a refrigerant's, stays as it is."""
    return [(choice, choice.replace("-", " ") if choice.islower() else choice) for choice in field.choices]


def changed(plate: Json, form: dict[str, str]) -> Changed:
    """Return what differs between a plate and a filled form, as a correction's members."""
    after = dict(plate)
    before = filled(plate)
    for field in FIELDS:
        typed = " ".join(form.get(field.place, before[field.place]).split())
        if typed != before[field.place]:
            put(after, field.place, read_box(field, typed))
    members = {key: after[key] for key in sorted(after) if after[key] != plate.get(key)}
    faults = forms.body_faults("machine", {key: value for key, value in after.items() if value is not None})
    return _told(members, faults)


def ratings_faults(plate: Json, ratings: Json) -> list[str]:
    """Return what the engine says against a rating map."""
    faults = forms.body_faults("machine", plate | {"ratings": ratings})
    return [f"{fault['pointer'].removeprefix('/body/')}: {fault['detail']}" for fault in faults]


def _told(members: Json, faults: list[dict[str, str]]) -> Changed:
    by_place = {fault["pointer"].removeprefix("/body/").replace("/", "."): fault["detail"] for fault in faults}
    known = {field.place for field in FIELDS}
    others = [f"{place}: {told}" for place, told in by_place.items() if place not in known]
    return Changed(members, {place: told for place, told in by_place.items() if place in known}, others)


def put(body: Json, place: str, value: Any) -> None:
    """Set a member, or a part of one; a part that goes may take its member with it."""
    member, _, part = place.partition(".")
    if not part:
        body[member] = value
        return
    held = {**(body.get(member) or {}), part: value}
    kept = {name: one for name, one in held.items() if one is not None}
    if member in OWN_UNIT:
        kept.setdefault("unit", OWN_UNIT[member])
    body[member] = None if set(kept) <= {"unit"} else kept


def _value_at(body: Json, place: str) -> Any:
    member, _, part = place.partition(".")
    value = body.get(member)
    return (value.get(part) if isinstance(value, dict) else None) if part else value


def _shown(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, list):
        return " / ".join(map(_shown, value))
    return f"{value:g}" if isinstance(value, float) and value.is_integer() else str(value)


def read_box(field: Field, typed: str) -> Any:
    """Return what was typed: a number where it is one, else the text, for the engine to speak about."""
    if not typed:
        return None
    if field.text or field.choices:
        return typed
    pair = PAIR.fullmatch(typed)
    if pair and field.place == "rated_voltage":
        return [_number(pair[1]), _number(pair[2])]
    return _number(typed) if NUMBER.fullmatch(typed) else typed


def _number(text: str) -> float | int:
    value = float(text)
    return int(value) if value.is_integer() else value
