"""The machine of a case: its plate, parts, rating map and own limits."""

from . import units
from .case_faults import Faults, escaped, field_problem, fields_faults, keys_faults
from .case_fields import MACHINE, MACHINE_PARTS
from .kinds import Any

# The checks there are, by name; the host says which when it loads them.
CHECK_NAMES: "list[str]" = []
OWN_LIMITS = (("unit", "unit!"), ("watch", "object"), ("fail", "object"), ("source", "text!"))


def machine_faults(machine: Any, faults: Faults) -> None:
    """List what is wrong with the form of the machine."""
    if machine is None:
        return
    fields_faults(machine, "/machine", MACHINE, faults)
    if not isinstance(machine, dict):
        return
    for name, fields in MACHINE_PARTS:
        if isinstance(machine.get(name), dict):
            fields_faults(machine[name], "/machine/" + name, fields, faults)
    _rated_voltage(machine.get("rated_voltage"), faults)
    _ratings(machine.get("ratings"), faults)
    _own_limits(machine.get("limits"), faults)


def _rated_voltage(value: Any, faults: Faults) -> None:
    if value is None:
        return
    pair = value if isinstance(value, list) else [value]
    for one in pair:
        if field_problem(one, "positive") or len(pair) > 2:
            faults.add("/machine/rated_voltage", "Must be a number above 0, or a pair of them like [208, 230].")
            return


def _ratings(ratings: Any, faults: Faults) -> None:
    if not isinstance(ratings, dict):
        return
    for name in ("power", "current", "mass_flow", "capacity"):
        terms = ratings.get(name)
        if terms is None:
            continue
        good = isinstance(terms, list) and len(terms) == 10
        if not good or [term for term in terms if field_problem(term, "number")]:
            faults.add("/machine/ratings/" + name, "Must be a list of ten numbers, C1 to C10.")
    unit = ratings.get("temperature_unit")
    if isinstance(unit, str) and units.known(unit) and units.dimension(unit) != "temperature":
        faults.add("/machine/ratings/temperature_unit", "Must be F, C or K.")
    _envelope(ratings.get("envelope"), faults)


def _envelope(envelope: Any, faults: Faults) -> None:
    if not isinstance(envelope, dict):
        return
    pointer = "/machine/ratings/envelope"
    keys_faults(envelope, pointer, (("suction", "any"), ("discharge", "any")), faults)
    for side in ("suction", "discharge"):
        ends = envelope.get(side)
        good = isinstance(ends, list) and len(ends) == 2
        if ends is not None and (not good or [end for end in ends if field_problem(end, "number")]):
            told = "Must be the lowest and highest dew temperature, like [-40, 0], in the map's own unit."
            faults.add(pointer + "/" + side, told)


def _own_limits(limits: Any, faults: Faults) -> None:
    if not isinstance(limits, dict):
        return
    for check in sorted(limits):
        pointer = "/machine/limits/" + escaped(check)
        own = limits[check]
        if CHECK_NAMES and check not in CHECK_NAMES and check != "extra":
            faults.add(pointer, "Unknown check. See GET /api/v1/vocabulary for the checks there are.")
        fields_faults(own, pointer, OWN_LIMITS, faults)
        if not isinstance(own, dict):
            continue
        for verdict in ("watch", "fail"):
            if isinstance(own.get(verdict), dict):
                fields_faults(own[verdict], pointer + "/" + verdict, (("above", "number"), ("below", "number")), faults)
