"""A reading as people read it: what, between which points, in what state, under which conditions, with what. Pure."""

from typing import Any

from rackside.reports.text import name, number

Json = dict[str, Any]
CONDITIONS = {
    "leads": "leads {}",
    "lead_zero": "leads zeroed: {}",
    "winding_temperature": "winding at {}",
    "seconds": "after {} s",
    "test_voltage": "at {} V",
    "at_30s": "{} at 30 s",
    "at_600s": "{} at 600 s",
    "since_start": "{} s after the start",
    "same_start": "same start: {}",
    "roll": "roll {}",
    "moment": "{}",
    "called": "called for: {}",
    "where": "at the {}",
    "probe": "probe: {}",
    "capture": "capture: {}",
    "duration": "for {} s",
    "load": "load {}",
    "half": "half {}",
    "method": "method {}",
    "test_name": "{}",
    "known_source_before": "known source before: {}",
    "known_source_after": "known source after: {}",
}


def reading_words(reading: Json, meters: Json) -> Json:
    """Return what a template needs of one reading; `meters` are those of the case."""
    return {
        "id": reading.get("id"),
        "point": reading["point"],
        "title": name("point", reading["point"]),
        "not_taken": reading.get("not_taken"),
        "values": _values(reading),
        "state": name("state", reading.get("state")),
        "conditions": ", ".join(conditions(reading)),
        "meter": _meter(reading.get("meter"), meters),
        "at": reading.get("at"),
        "by": reading.get("by"),
        "versions": (reading.get("extra") or {}).get("two_versions") or [],
    }


def conditions(reading: Json) -> list[str]:
    """Return under what a reading was taken, the state apart."""
    return [form.format(_plain(reading, key)) for key, form in CONDITIONS.items() if reading.get(key) not in (None, "")]


def values(reading: Json) -> str:
    """Return a reading's values on one line with its unit: `476 / 477 / 475 V`."""
    told = " / ".join(one["value"] for one in _values(reading))
    unit = name("unit", reading.get("unit"))
    return f"{told} {unit}" if unit else told


def _plain(reading: Json, key: str) -> str:
    value = reading[key]
    if isinstance(value, bool):
        return "yes" if value else "no"
    unit = reading.get(f"{key}_unit")
    spoken = str(value).replace("_", " ")
    return f"{spoken} {name('unit', unit)}" if unit else spoken


def _values(reading: Json) -> list[Json]:
    """Return the values with the points between which they were read."""
    unit = reading.get("unit")
    if reading.get("legs"):
        return [_value(leg, value, unit) for leg, value in reading["legs"].items()]
    if isinstance(reading.get("contacts"), list):
        return [_contact(contact) for contact in reading["contacts"]]
    return [] if reading.get("value") is None else [_value("", reading["value"], unit)]


def _value(leg: str, value: Any, unit: str | None) -> Json:
    word = name("word", value) if isinstance(value, str) else number(value)
    return {"leg": leg, "value": word, "unit": name("unit", unit)}


def _contact(contact: Json) -> Json:
    expected = f", expected {contact['expected']}" if contact.get("expected") else ""
    return {"leg": contact.get("name", "?"), "value": f"{contact.get('volts', '–')}{expected}", "unit": "V"}


def _meter(meter: Any, meters: Json) -> str:
    """Return which meter read it, or which read each leg."""
    if isinstance(meter, dict):
        return "; ".join(f"{leg}: {_meter(one, meters)}" for leg, one in meter.items())
    if not meter:
        return "not stated"
    known = meters.get(meter) or {}
    return known.get("name") or known.get("kind") or str(meter)
