"""The handbook's case files F1, F2, F4, F6, F7 and F10 as cases; everything in them is invented."""

from typing import Any

from tests.engine.healthy import LINES, MOTOR, PAIRS, POLES, Case, legs, reading

DAY = "2026-10-14T"
SUPPLY = {"nominal_voltage": 480, "grounding": "grounded-wye"}
COMMON = {
    "type": "semi-hermetic-reciprocating",
    "refrigerant": "R-448A",
    "rated_voltage": 460,
    "rated_frequency": 60,
    "start": "across-the-line",
    "supply": SUPPLY,
    "coil_voltage": 120,
    "oil_pump": "reversible",
    "oil_control": {"cut_out": 9, "delay": 120, "unit": "psi"},
    "heater": {"power": 100, "voltage": 120},
}
LT_22 = {**COMMON, "rated_load_current": 34.0, "max_continuous_current": 47.6, "locked_rotor_current": 175}
LT_22.update({"application": "low", "overload_setting": 38, "winding_resistance_25c": 0.525})
MT_25 = {**COMMON, "rated_load_current": 40.0, "max_continuous_current": 56.0, "locked_rotor_current": 205}
MT_25.update({"application": "medium"})


def at(clock: str) -> str:
    return f"{DAY}{clock}:00-05:00"


def round_(label: str, clock: str, *readings: Case) -> Case:
    """Return a round whose readings are a minute apart; the ids are the round's label and their place."""
    hour, minute = (int(part) for part in clock.split(":"))
    timed = []
    for place, one in enumerate(readings):
        late = minute + place
        when = f"{(hour + late // 60) % 24:02}:{late % 60:02}"
        timed.append({"id": f"{label}-{clock}-{place}", "at": at(when), **one})
    return {"label": label, "at": at(clock), "readings": timed}


def signs(*seen: str, absent: tuple[str, ...] = ()) -> list[Case]:
    return [{"sign": one, "present": True} for one in seen] + [{"sign": one, "present": False} for one in absent]


def volts(values: str, state: str, **more: Any) -> Case:
    return reading("line_voltage", legs(PAIRS, *values.split()), "V", state, **more)


def amps(values: str, **more: Any) -> Case:
    return reading("running_current", legs(LINES, *values.split()), "A", "running", **more)


def drops(values: str) -> Case:
    return reading("pole_drop", legs(POLES, *values.split()), "mV", "running")


def ohms(values: str, **more: Any) -> Case:
    return reading("winding_resistance", legs(MOTOR, *values.split()), "ohm", "isolated", **more)


def megohms(value: str, fahrenheit: int, **more: Any) -> Case:
    told = {"leads": "off", "seconds": 60, "winding_temperature": fahrenheit, "winding_temperature_unit": "F", **more}
    return reading("insulation_resistance", value, "Mohm", "isolated", **told)


def net_oil(pump: str, crankcase: str, since: int) -> list[Case]:
    return [
        reading("pump_pressure", pump, "psig", "running", since_start=since),
        reading("crankcase_pressure", crankcase, "psig", "running", since_start=since),
    ]


def f1() -> Case:
    """A3: overload trips 40 min after a defrost; an earlier note says shorted winding. The dial stood at 24 A."""
    found = round_(
        "as_found",
        "20:00",
        reading("overload_dial", "24", "A", "isolated"),
        ohms("0.7 0.7 0.8", leads="off", meter="tenths"),
        ohms("0.523 0.527 0.525", leads="off", meter="four-wire"),
        megohms("640", 72),
        volts("474 476 472", "running"),
        amps("24.8 25.1 24.6"),
        drops("36 39 37"),
        amps("29.3 29.6 29.1"),
        *net_oil("43", "11", 600),
        reading("oil_level", "0.5", "fraction", "running"),
        reading("suction_pressure", "11", "psig", "running"),
        reading("suction_temperature", "6", "F", "running", probe="clamp"),
        reading("discharge_temperature", "211", "F", "running", probe="clamp"),
    )
    return {
        "complaint": "overload_trip",
        "machine": {"tag": "A3", **LT_22},
        "meters": {"tenths": {"kind": "ohmmeter", "resolution": 0.1}},
        "rounds": [found],
        "signs": signs("trips_after_defrost", "trips_after_minutes", "overload_tripped"),
        "events": [{"at": at("19:40"), "device": "overload", "what": "trip"}],
    }


def f2() -> Case:
    """B2: the module locks out on imbalance that follows the supply; a charger bank loads two legs."""
    found = round_(
        "as_found",
        "19:10",
        volts("461 475 472", "running"),
        amps("39.2 35.4 31.6"),
        amps("38.9 35.6 31.7", roll=1),
        drops("44 41 40"),
        reading("fuse_drop", legs(LINES, "28", "31", "27"), "mV", "running"),
        ohms("0.402 0.404 0.403", leads="off"),
        megohms("900", 72),
    )
    later = round_("interim", "19:40", volts("478 480 479", "running"), amps("34.9 35.2 34.6"))
    twin = reading("running_current", legs(LINES, "38.4", "35.0", "31.5"), "A", "running", at=at("19:11"))
    return {
        "complaint": "protector_trip",
        "machine": {"tag": "B2", **MT_25},
        "rounds": [found, later],
        "signs": signs("module_locked_out", "twins_same_pattern"),
        "neighbours": [{"tag": "B3", "like": True, "running": True, "readings": [twin]}],
        "actions": [
            {"id": "roll", "at": at("19:11"), "kind": "leads_rolled", "what": "T1 T2 T3 one place"},
            {"id": "back", "at": at("19:30"), "kind": "leads_rolled", "what": "T1 T2 T3 back", "closes": "roll"},
        ],
    }


def f4() -> Case:
    """B1: oil failure; a note wants a new contactor for its pitting. The oil regulator's strainer is packed."""
    found = round_(
        "as_found",
        "22:00",
        reading("coil_voltage", "112", "V", "running", called=True, moment="pull_in"),
        reading("coil_voltage", "118", "V", "running", called=True, moment="sealed"),
        volts("477 478 475", "running"),
        amps("30.5 30.8 30.2"),
        drops("38 41 44"),
        *net_oil("70", "41", 120),
        *net_oil("52", "41", 400),
        reading("oil_level", "<0.125", "fraction", "running"),
        reading("reservoir_level", "0.75", "fraction"),
        reading("reservoir_pressure", "62", "psig"),
        reading("regulator_inlet_temperature", legs("before after", "105", "72"), "F"),
        reading("suction_pressure", "40", "psig", "running"),
        reading("suction_temperature", "42", "F", "running", probe="clamp"),
        reading("sump_temperature", "118", "F", "running"),
        reading("oil_colour", "amber"),
        reading("oil_acid", "negative"),
    )
    return {
        "complaint": "oil_trip",
        "machine": {"tag": "B1", **MT_25},
        "rounds": [found],
        "signs": signs(
            "contacts_pitted", "oil_low_here_only", "regulator_strainer_cold", "motor_turned", absent=("oil_foam",)
        ),
        "events": [{"at": at("21:30"), "device": "oil_control", "what": "trip", "motor_ran": True}],
    }


def f6() -> Case:
    """A1: oil failure after defrost two mornings running, a new pump yesterday. Open heater, loose bulb, flooded."""
    cold = round_(
        "as_found",
        "05:00",
        reading("heater_voltage", "119", "V", "stopped"),
        reading("heater_current", "0.00", "A", "stopped"),
        reading("sump_temperature", "38", "F", "stopped"),
        reading("ambient_temperature", "62", "F", "stopped"),
        reading("oil_level", "1", "fraction", "stopped"),
        megohms("14", 40),
    )
    run = round_(
        "as_found",
        "05:30",
        *net_oil("48", "10", 5),
        *net_oil("34", "10", 20),
        *net_oil("22", "10", 60),
        *net_oil("17", "10", 110),
        reading("suction_pressure", "10", "psig", "running"),
        reading("suction_temperature", "-16", "F", "running", probe="clamp"),
        reading("sump_temperature", "41", "F", "running"),
        amps("29.8 30.1 29.5"),
        reading("trip_delay", "210", "s"),
    )
    warm = round_("interim", "08:30", megohms("310", 90))
    return {
        "complaint": "oil_trip",
        "machine": {"tag": "A1", **LT_22},
        "rounds": [cold, run, warm],
        "signs": signs("oil_glass_full", "oil_foam", "trips_after_defrost", "bulb_loose", "knock", "motor_turned"),
        "events": [{"at": at("04:20"), "device": "oil_control", "what": "trip"}],
    }


def f7() -> Case:
    """B3: oil failure reset three times by the night staff; the breaker stood tripped and the motor never turned."""
    found = round_(
        "as_found",
        "01:50",
        reading("trip_delay", "121", "s"),
        reading("oil_level", "0.5", "fraction", "stopped"),
        reading("oil_colour", "straw"),
        reading("sump_temperature", "93", "F", "stopped"),
        reading("ambient_temperature", "70", "F"),
        reading("coil_voltage", "118", "V", "stopped", called=True, moment="sealed"),
        volts("0 0 0", "stopped", where="contactor"),
        volts("479 478 480", "stopped", where="source"),
        megohms("1100", 68),
        ohms("0.519 0.522 0.516", leads="on"),
    )
    left = round_(
        "as_left",
        "03:00",
        amps("33.1 33.4 32.9"),
        drops("40 42 39"),
        reading("joint_temperature", legs(LINES, "96", "97", "98"), "F", "running"),
        *net_oil("71", "41", 200),
    )
    return {
        "complaint": "oil_trip",
        "machine": {"tag": "B3", **MT_25},
        "rounds": [found, left],
        "signs": signs(
            "breaker_tripped", "line_side_dead", "zero_current_before_alarm", "head_cold", "reset_before_arrival"
        ),
        "events": [{"at": at("01:14"), "device": "oil_control", "what": "trip", "motor_ran": False}],
        "actions": [
            {
                "id": "breaker",
                "at": at("02:45"),
                "kind": "part_fitted",
                "what": "breaker, lugs torqued",
                "by": "T. Okafor",
            }
        ],
    }


def f10() -> Case:
    """A6: head temperature lockout on hot afternoons; the head fan's capacitor has faded."""
    found = round_(
        "as_found",
        "15:00",
        reading("suction_pressure", "9", "psig", "running"),
        reading("discharge_pressure", "230", "psig", "running"),
        reading("suction_temperature", "0", "F", "running", probe="clamp"),
        reading("injection_coil_voltage", "118", "V", "running"),
        reading("injection_line", "cold", state="running"),
        reading("discharge_temperature", "246", "F", "running", probe="clamp"),
        reading("fan_voltage", "231", "V", "running"),
        reading("fan_current", "1.41", "A", "running"),
        reading("fan_speed", "610", "rpm", "running"),
        reading("fan_capacitance", "2.6", "uF", "isolated"),
        amps("24.6 24.9 24.4"),
        volts("476 474 475", "running"),
        megohms(">200", 120),
        reading("protector_resistance", "190", "ohm", "stopped"),
        reading("pump_down_vacuum", "25", "inHg_vac", "running"),
        reading("pump_down_rise", "2", "psi/min", "stopped"),
    )
    twin = reading("discharge_temperature", "214", "F", "running", at=at("15:05"))
    machine = {"tag": "A6", **LT_22, "fan": {"rated_current": 0.9, "rated_speed": 1550, "capacitance": 5.0}}
    machine["protector"] = {"kind": "ptc", "trip": 4500, "reset": 2750}
    return {
        "complaint": "high_discharge_temperature",
        "machine": machine,
        "rounds": [found],
        "signs": signs("trips_when_hot", absent=("all_machines_hot",)),
        "neighbours": [{"tag": "A3", "like": True, "running": True, "readings": [twin]}],
        "events": [{"at": at("14:30"), "device": "head_temperature", "what": "trip"}],
    }


# Name, case, the cause it must come to, what it must not say. Source: HANDBOOK.md, F, truth table.
CASES = (
    ("F1", f1, "overload_setting", ("shorted_turns", "open_winding", "grounded_winding")),
    ("F2", f2, "voltage_unbalance", ("shorted_turns", "open_winding", "grounded_winding", "contactor_pole")),
    ("F4", f4, "oil_regulator", ("contactor_pole", "contactor_chatter", "oil_pump_fault")),
    ("F6", f6, "floodback", ("oil_pump_fault", "grounded_winding")),
    ("F7", f7, "never_ran", ("floodback", "migration", "oil_away", "oil_regulator", "oil_pump_fault", "worn_bearings")),
    ("F10", f10, "head_fan", ("injection_fault", "valve_failure")),
)
