"""Harrow Bend Growers' Cold Storage Co-operative: one site, two racks, and the meters in two vans."""

from typing import Any

from .people import LINDQVIST, OKAFOR, Person

# 460 V, three phases, power factor 0.85.
WATTS_PER_AMP = 677.0
TIME_ZONE = "America/Chicago"

SITE: dict[str, Any] = {
    "name": "Tannery Lane Cold Store",
    "address": "14 Tannery Lane, Harrow Bend",
    "altitude": {"value": "650", "unit": "ft"},
    "supply": {"nominal_voltage": 480, "grounding": "grounded-wye"},
    "time_zone": TIME_ZONE,
    "contact": "Night desk, Harrow Bend Growers' Cold Storage Co-operative",
    "notes": "Machine room in the basement: no signal below the stairs. Detector display is outside the door.",
    "extra": {"full_charge_lb": {"A": "620", "B": "480"}, "leak_method": "annualizing"},
}


def rating_map(current: tuple[float, float, float], suction: tuple[int, int]) -> dict[str, Any]:
    """Return an invented map: amps at the plate's volts from 1, suction and discharge dew [F]; watts go with amps."""
    constant, by_suction, by_discharge = current
    amps = [constant, by_suction, by_discharge, 0, 0, 0, 0, 0, 0, 0]
    return {
        "order": "ahri-540",
        "temperature_unit": "F",
        "current": amps,
        "power": [round(WATTS_PER_AMP * term, 1) for term in amps],
        "envelope": {"suction": list(suction), "discharge": [70, 130]},
    }


_COMMON: dict[str, Any] = {
    "type": "semi-hermetic-reciprocating",
    "refrigerant": "R-448A",
    "rated_voltage": 460,
    "rated_frequency": 60,
    "start": "across-the-line",
    "oil_control": {"cut_out": 9, "delay": 120, "unit": "psi"},
    "oil_pump": "reversible",
    "coil_voltage": 120,
    "heater": {"power": 100, "voltage": 120},
    "protector": {"kind": "ptc", "trip": 4500, "reset": 2750},
}
PLATES: dict[str, dict[str, Any]] = {
    "LT-22": {
        **_COMMON,
        "model": "LT-22",
        "application": "low",
        "rated_load_current": 34.0,
        "max_continuous_current": 47.6,
        "locked_rotor_current": 175,
        "winding_resistance_25c": 0.531,
        "overload_setting": 38,
        "fan": {"rated_current": 0.9, "rated_speed": 1550, "capacitance": 5.0},
        "ratings": rating_map((25.10, 0.42, 0.08), (-40, 5)),
    },
    "MT-25": {
        **_COMMON,
        "model": "MT-25",
        "application": "medium",
        "rated_load_current": 40.0,
        "max_continuous_current": 56.0,
        "locked_rotor_current": 205,
        "winding_resistance_25c": 0.407,
        "ratings": rating_map((14.06, 0.50, 0.12), (0, 45)),
    },
    "MT-30": {
        **_COMMON,
        "model": "MT-30",
        "application": "medium",
        "rated_load_current": 46.0,
        "max_continuous_current": 64.4,
        "locked_rotor_current": 214,
        "winding_resistance_25c": 0.352,
        "ratings": rating_map((16.16, 0.575, 0.138), (0, 45)),
    },
}
MACHINES: dict[str, str] = {
    **{f"A{number}": "LT-22" for number in range(1, 7)},
    **{f"B{number}": "MT-30" if number == 4 else "MT-25" for number in range(1, 6)},
}


def machine_body(tag: str, site: str) -> dict[str, Any]:
    """Return the body of a machine's first entry."""
    model = MACHINES[tag]
    serial = f"{model.replace('-', '')}-{1040 + 17 * list(MACHINES).index(tag)}"
    return {"site": site, "rack": tag[0], "tag": tag, "serial": serial, **PLATES[model]}


# Each van carries the same five kinds; the volts and ohms functions live in one meter.
_KINDS: dict[str, dict[str, Any]] = {
    "multimeter": {
        "kind": "multimeter",
        "points": {
            "line_voltage": {"percent": 0.5},
            "start_voltage": {"percent": 0.5},
            "pole_drop": {"percent": 0.5, "counts": 1},
            "fuse_drop": {"percent": 0.5, "counts": 1},
            "coil_voltage": {"percent": 0.5, "counts": 2},
        },
    },
    "clamp": {
        "kind": "clamp",
        "points": {"running_current": {"percent": 1.5, "counts": 2}, "start_current": {"percent": 2.0, "counts": 2}},
    },
    "four-wire": {"kind": "milliohm", "points": {"winding_resistance": {"percent": 0.3, "counts": 1}}},
    "insulation": {"kind": "insulation", "points": {"insulation_resistance": {"percent": 3.0, "counts": 2}}},
    "gauges": {
        "kind": "gauges",
        "resolution": 1,
        "points": {"pump_pressure": {"percent": 0.5}, "crankcase_pressure": {"percent": 0.5}},
    },
}
OWNERS: dict[Person, str] = {OKAFOR: "TO", LINDQVIST: "RL"}


def meter_bodies(owner: Person, calibrated: str) -> dict[str, dict[str, Any]]:
    """Return the bodies of one van's meters by kind."""
    letters = OWNERS[owner]
    return {
        kind: {"name": f"{kind} {letters}", "serial": f"{letters}-{number + 101}", "calibrated": calibrated, **body}
        for number, (kind, body) in enumerate(_KINDS.items())
    }
