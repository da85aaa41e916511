"""Healthy machines of every kind, with full rounds as a careful technician would enter them. All invented."""

from typing import Any

Case = dict[str, Any]


def legs(keys: str, *values: str) -> dict[str, str]:
    return dict(zip(keys.split(), values, strict=True))


PAIRS, LINES, POLES = "L1-L2 L2-L3 L3-L1", "L1 L2 L3", "L1-T1 L2-T2 L3-T3"
MOTOR, GROUND = "T1-T2 T2-T3 T3-T1", "L1-G L2-G L3-G"


def reading(point: str, value: Any, unit: str = "", state: str = "", **more: Any) -> Case:
    told: Case = {"point": point, ("legs" if isinstance(value, dict) else "value"): value}
    if unit:
        told["unit"] = unit
    if state:
        told["state"] = state
    return {**told, **more}


class Round:
    """Collects the readings of one round; every reading gets a time, a minute apart."""

    def __init__(self) -> None:
        self.readings: list[Case] = []

    def add(self, point: str, value: Any, unit: str = "", state: str = "", **more: Any) -> "Round":
        minute = len(self.readings)
        at = f"2026-10-14T{20 + minute // 60:02}:{minute % 60:02}:00-05:00"
        self.readings.append({"id": f"h{minute}", "at": at, **reading(point, value, unit, state, **more)})
        return self


def full_round(volts: tuple[str, str, str], amps: tuple[str, str, str], **kind: Any) -> Round:
    """Return the readings every machine has: supply, poles, windings, insulation, amps."""
    ground = kind.get("ground", ("277", "278", "277"))
    dead = legs(PAIRS + " " + GROUND, "0.1", "0.2", "0.1", "0.3", "0.2", "0.1")
    round_ = Round()
    round_.add("line_voltage", legs(PAIRS, *volts), "V", "stopped")
    if ground:
        round_.add("line_ground_voltage", legs(GROUND, *ground), "V", "stopped")
    round_.add(
        "absence_test",
        dead,
        "V",
        "isolated",
        known_source_before=volts[0],
        known_source_after=volts[0],
        meter="meter-1",
    )
    round_.add("winding_resistance", legs(MOTOR, *kind["ohms"]), "ohm", "isolated", leads="off", **kind["winding"])
    insulation = {"leads": "off", "seconds": 60, "test_voltage": 500, **kind["winding"]}
    round_.add("insulation_resistance", kind["megohms"], "Mohm", "isolated", **insulation)
    round_.add("line_voltage", legs(PAIRS, *volts), "V", "running")
    round_.add("load_voltage", legs(MOTOR, *volts), "V", "running")
    round_.add("running_current", legs(LINES, *amps), "A", "running", load="full")
    round_.add("pole_drop", legs(POLES, "28", "30", "29"), "mV", "running")
    round_.add("fuse_drop", legs(LINES, "22", "23", "22"), "mV", "running")
    round_.add("coil_voltage", kind.get("coil", "118"), "V", "running", called=True, moment="sealed")
    round_.add("starts_last_hour", "2")
    return round_


def with_oil(round_: Round, pump: str, crankcase: str, sump: str) -> Round:
    round_.add("pump_pressure", pump, "psig", "running", since_start=600)
    round_.add("crankcase_pressure", crankcase, "psig", "running", since_start=600)
    round_.add("oil_level", "0.5", "fraction", "running")
    round_.add("oil_colour", "straw")
    round_.add("oil_acid", "negative")
    round_.add("sump_temperature", sump, "F", "running")
    return round_


def with_gas(round_: Round, suction: str, suction_line: str, discharge: str, discharge_line: str, liquid: str) -> Round:
    round_.add("suction_pressure", suction, "psig", "running", since_start=1200)
    round_.add("suction_temperature", suction_line, "F", "running", probe="insulated_clamp", since_start=1200)
    round_.add("discharge_pressure", discharge, "psig", "running", since_start=1200)
    round_.add("discharge_temperature", discharge_line, "F", "running", probe="insulated_clamp", since_start=1200)
    round_.add("liquid_pressure", discharge, "psig", "running", since_start=1200)
    round_.add("liquid_temperature", liquid, "F", "running", probe="clamp", since_start=1200)
    return round_


def with_start(round_: Round, amps: tuple[str, str, str], least: tuple[str, str, str]) -> Round:
    round_.add("start_current", legs(LINES, *amps), "A", "starting", duration=0.3, same_start=True, capture="inrush")
    round_.add("start_voltage", legs(MOTOR, *least), "V", "starting")
    return round_


WARM = {"winding_temperature": 72, "winding_temperature_unit": "F"}
SUPPLY_480 = {"nominal_voltage": 480, "grounding": "grounded-wye"}
LOW_TEMPERATURE = {
    "tag": "A3",
    "type": "semi-hermetic-reciprocating",
    "refrigerant": "R-448A",
    "application": "low",
    "rated_voltage": 460,
    "rated_frequency": 60,
    "rated_load_current": 34.0,
    "max_continuous_current": 47.6,
    "locked_rotor_current": 175,
    "start": "across-the-line",
    "oil_pump": "reversible",
    "oil_control": {"cut_out": 9, "cut_in": 12, "delay": 120, "unit": "psi"},
    "supply": SUPPLY_480,
    "coil_voltage": 120,
    "overload_setting": 38,
    "fan": {"rated_current": 0.9, "rated_speed": 1550, "capacitance": 5.0},
    "heater": {"power": 100, "voltage": 120},
    "protector": {"kind": "ptc", "trip": 4500, "reset": 2750},
}
MEDIUM = {
    **LOW_TEMPERATURE,
    "tag": "B1",
    "application": "medium",
    "rated_load_current": 40.0,
    "max_continuous_current": 56.0,
}
MEDIUM.update(locked_rotor_current=205, overload_setting=44)


def low_temperature() -> Case:
    ohms = ("0.523", "0.527", "0.525")
    round_ = full_round(("478", "480", "479"), ("24.8", "25.1", "24.6"), ohms=ohms, megohms="640", winding=WARM)
    with_start(with_oil(round_, "42", "10", "104"), ("120", "128", "124"), ("441", "443", "442"))
    with_gas(round_, "10", "8", "215", "205", "80")
    round_.add("overload_dial", "38", "A").add("protector_resistance", "190", "ohm", "isolated")
    round_.add("fan_voltage", "231", "V", "running").add("fan_current", "0.86", "A", "running")
    round_.add("fan_speed", "1540", "rpm", "running").add("fan_capacitance", "5.0", "uF", "isolated")
    round_.add("heater_voltage", "119", "V", "stopped").add("heater_current", "0.83", "A", "stopped")
    round_.add("pump_down_vacuum", "25", "inHg_vac", "running").add("pump_down_rise", "2", "psi/min", "stopped")
    round_.add("unloader_step", {"loaded": "25.1", "unloaded": "17.8"}, "A", "running")
    round_.add("trip_delay", "121", "s").add("line_frequency", "60.0", "Hz", "running")
    return _case(LOW_TEMPERATURE, round_)


def medium_temperature() -> Case:
    ohms = ("0.402", "0.404", "0.403")
    round_ = full_round(("477", "478", "475"), ("30.5", "30.8", "30.2"), ohms=ohms, megohms="900", winding=WARM)
    with_start(with_oil(round_, "71", "40", "112"), ("150", "155", "149"), ("440", "441", "440"))
    return _case(MEDIUM, with_gas(round_, "40", "42", "225", "178", "84"))


def small_208() -> Case:
    machine = {
        **MEDIUM,
        "rated_voltage": [208, 230],
        "rated_load_current": 12.0,
        "max_continuous_current": 17.0,
        "locked_rotor_current": 82,
        "supply": {"nominal_voltage": 208, "grounding": "grounded-wye"},
        "overload_setting": 13,
        "oil_pump": "none",
        "oil_control": None,
    }
    ohms, ground = ("1.212", "1.220", "1.215"), ("120", "121", "120")
    round_ = full_round(
        ("207", "208", "206"), ("9.8", "9.9", "9.7"), ohms=ohms, megohms="300", winding=WARM, ground=ground
    )
    with_start(round_, ("58", "60", "57"), ("192", "193", "191"))
    return _case(machine, with_gas(round_, "40", "44", "225", "180", "84"))


def small_208_on_a_whole_volt_meter() -> Case:
    """The same machine read by a meter of whole volts: line and load round to neighbours now and then."""
    case = small_208()
    case["meters"] = {"meter-1": {"kind": "multimeter", "resolution": 1, "points": {}}}
    for told in case["rounds"][0]["readings"]:
        if told["point"] == "load_voltage":
            told.update(legs=legs(MOTOR, "206", "207", "206"), meter="meter-1")
        if told["point"] == "line_voltage":
            told["meter"] = "meter-1"
    return case


def small_208_before_its_poles_are_read() -> Case:
    case = small_208_on_a_whole_volt_meter()
    kept = [told for told in case["rounds"][0]["readings"] if told["point"] != "pole_drop"]
    case["rounds"][0]["readings"] = kept
    return case


def large_part_winding() -> Case:
    machine = {
        **MEDIUM,
        "start": "part-winding",
        "rated_load_current": 92.0,
        "max_continuous_current": 128.0,
        "locked_rotor_current": 470,
        "locked_rotor_current_half": 290,
        "overload_setting": 52,
        "overload": {"place": "half"},
    }
    ohms = ("0.1482", "0.1490", "0.1485")
    round_ = full_round(("474", "476", "475"), ("71.2", "72.0", "71.5"), ohms=ohms, megohms="1200", winding=WARM)
    with_start(with_oil(round_, "72", "40", "115"), ("205", "212", "208"), ("438", "440", "439"))
    halves = legs("1-L1 1-L2 1-L3 2-L1 2-L2 2-L3", "35.8", "36.1", "35.9", "35.4", "35.9", "35.6")
    round_.add("half_current", halves, "A", "running").add("second_half_delay", "1.0", "s", "starting")
    round_.add("overload_dial", "52", "A")
    return _case(machine, with_gas(round_, "40", "43", "225", "180", "84"))


def welded_scroll_with_low_megohms() -> Case:
    machine = {
        "type": "welded-scroll",
        "refrigerant": "R-410A",
        "application": "high",
        "rated_voltage": 460,
        "rated_frequency": 60,
        "rated_load_current": 14.0,
        "locked_rotor_current": 102,
        "supply": SUPPLY_480,
        "coil_voltage": 24,
        "oil_pump": "none",
        "insulation_minimum": 1,
        "protector": {"kind": "line-break"},
    }
    ohms = ("1.105", "1.110", "1.108")
    kind = {"ohms": ohms, "megohms": "6", "winding": WARM, "coil": "24.6"}
    round_ = full_round(("479", "478", "480"), ("10.9", "11.1", "11.0"), **kind)
    with_start(round_, ("72", "75", "73"), ("462", "463", "464"))
    round_.add("phase_sequence", "forward", "", "stopped")
    round_.add("sump_temperature", "92", "F", "running")
    return _case(machine, with_gas(round_, "130", "60", "340", "160", "95"))


def screw() -> Case:
    machine = {
        **MEDIUM,
        "type": "semi-hermetic-screw",
        "refrigerant": "R-134a",
        "oil_pump": "none",
        "oil_control": None,
        "rated_load_current": 110.0,
        "max_continuous_current": 150.0,
        "start": "wye-delta",
        "locked_rotor_current": 240,
        "overload_setting": 64,
        "overload": {"place": "delta"},
    }
    ohms = ("0.0921", "0.0925", "0.0923")
    round_ = full_round(("478", "479", "477"), ("86.0", "86.9", "86.2"), ohms=ohms, megohms="850", winding=WARM)
    with_start(round_, ("165", "171", "168"), ("451", "452", "451"))
    round_.add("phase_sequence", "forward", "", "stopped").add("overload_dial", "64", "A")
    return _case(machine, with_gas(round_, "24", "48", "140", "168", "88"))


def transcritical_r744() -> Case:
    machine = {
        **MEDIUM,
        "refrigerant": "R-744",
        "application": "medium",
        "stage": "booster-high",
        "oil_pump": "none",
        "oil_control": None,
        "rated_load_current": 38.0,
    }
    round_ = full_round(
        ("478", "480", "479"), ("29.8", "30.2", "29.9"), ohms=("0.431", "0.434", "0.432"), megohms="700", winding=WARM
    )
    round_.add("oil_level", "0.5", "fraction", "running").add("oil_colour", "clear")
    round_.add("suction_pressure", "407", "psig", "running").add(
        "suction_temperature", "38", "F", "running", probe="well"
    )
    round_.add("discharge_pressure", "1280", "psig", "running")
    round_.add("discharge_temperature", "240", "F", "running", probe="well")
    round_.add("gas_cooler_pressure", "1270", "psig", "running").add("gas_cooler_temperature", "92", "F", "running")
    round_.add("flash_tank_pressure", "500", "psig", "running")
    return _case(machine, round_)


def drive_fed() -> Case:
    machine = {**MEDIUM, "start": "drive", "drive": {"minimum_frequency": 35, "maximum_frequency": 60, "bus_wait": 600}}
    round_ = full_round(
        ("478", "480", "479"), ("27.9", "28.4", "28.0"), ohms=("0.402", "0.404", "0.403"), megohms="900", winding=WARM
    )
    round_.readings = [
        told for told in round_.readings if told["point"] not in ("load_voltage", "pole_drop", "fuse_drop")
    ]
    round_.add("drive_frequency", "40.0", "Hz", "running")
    round_.add("drive_output_voltage", legs("U-V V-W W-U", "306", "307", "306"), "V", "running")
    round_.add("drive_output_current", legs("U V W", "31.0", "31.3", "30.9"), "A", "running")
    with_oil(round_, "56", "40", "108")
    return _case(machine, with_gas(round_, "40", "42", "215", "172", "82"))


def canadian_575() -> Case:
    machine = {
        **MEDIUM,
        "rated_voltage": 575,
        "rated_load_current": 31.0,
        "max_continuous_current": 43.0,
        "locked_rotor_current": 164,
        "supply": {"nominal_voltage": 600, "grounding": "grounded-wye"},
        "overload_setting": 34,
    }
    kind = {"ohms": ("0.632", "0.635", "0.633"), "megohms": "550", "winding": WARM, "ground": ("346", "347", "346")}
    round_ = full_round(("599", "601", "600"), ("24.2", "24.4", "24.1"), **kind)
    with_start(with_oil(round_, "70", "40", "110"), ("112", "117", "115"), ("552", "553", "551"))
    return _case(machine, with_gas(round_, "40", "43", "225", "180", "84"))


def high_altitude() -> Case:
    machine = {**LOW_TEMPERATURE, "site_altitude": 7200, "site_altitude_unit": "ft"}
    round_ = full_round(
        ("478", "480", "479"), ("23.8", "24.1", "23.6"), ohms=("0.523", "0.527", "0.525"), megohms="640", winding=WARM
    )
    with_oil(round_, "44", "12", "104")
    return _case(machine, with_gas(round_, "12", "10", "210", "205", "80"))


def cold_motor() -> Case:
    cold = {"winding_temperature": 52, "winding_temperature_unit": "F"}
    round_ = full_round(
        ("481", "482", "480"), ("24.1", "24.3", "24.0"), ohms=("0.498", "0.501", "0.499"), megohms="2000", winding=cold
    )
    round_.add("ambient_temperature", "50", "F").add("sump_temperature", "84", "F", "stopped")
    return _case({**LOW_TEMPERATURE, "winding_resistance_25c": 0.525}, with_oil(round_, "42", "10", "100"))


def on_a_generator() -> Case:
    round_ = full_round(
        ("472", "474", "471"), ("31.0", "31.3", "30.8"), ohms=("0.402", "0.404", "0.403"), megohms="900", winding=WARM
    )
    with_start(with_oil(round_, "71", "40", "112"), ("140", "146", "141"), ("407", "409", "406"))
    round_.add("line_frequency", "60.3", "Hz", "running")
    case = _case(MEDIUM, with_gas(round_, "40", "42", "225", "178", "84"))
    return {**case, "signs": [*case["signs"], {"sign": "on_generator", "present": True}]}


def si_units() -> Case:
    """The medium machine again, read in kPa, C and millivolts by another shop."""
    round_ = full_round(
        ("477", "478", "475"),
        ("30.5", "30.8", "30.2"),
        ohms=("0.402", "0.404", "0.403"),
        megohms="900",
        winding={"winding_temperature": 22, "winding_temperature_unit": "C"},
    )
    round_.add("pump_pressure", "490", "kPa", "running", since_start=600)
    round_.add("crankcase_pressure", "276", "kPa", "running", since_start=600)
    round_.add("sump_temperature", "44", "C", "running")
    round_.add("suction_pressure", "276", "kPa", "running").add(
        "suction_temperature", "6", "C", "running", probe="well"
    )
    round_.add("discharge_pressure", "15.5", "bar", "running")
    round_.add("discharge_temperature", "81", "C", "running", probe="well")
    return _case(MEDIUM, round_)


def corner_grounded() -> Case:
    machine = {**MEDIUM, "supply": {"nominal_voltage": 480, "grounding": "corner-grounded-delta"}}
    kind = {"ohms": ("0.402", "0.404", "0.403"), "megohms": "900", "winding": WARM, "ground": ("0", "480", "479")}
    return _case(
        machine, with_oil(full_round(("479", "480", "478"), ("30.5", "30.8", "30.2"), **kind), "71", "40", "112")
    )


def _case(machine: Case, round_: Round) -> Case:
    signs = [{"sign": sign, "present": True} for sign in ("motor_turned", "valves_stated", "terminal_cover_on")]
    plate = {key: value for key, value in machine.items() if value is not None}
    meters = {"meter-1": {"kind": "multimeter", "points": {}}}
    return {
        "machine": plate,
        "meters": meters,
        "rounds": [{"label": "as_left", "readings": round_.readings}],
        "signs": signs,
    }


KINDS = (
    low_temperature,
    medium_temperature,
    small_208,
    small_208_on_a_whole_volt_meter,
    small_208_before_its_poles_are_read,
    large_part_winding,
    welded_scroll_with_low_megohms,
    screw,
    transcritical_r744,
    drive_fed,
    canadian_575,
    high_altitude,
    cold_motor,
    on_a_generator,
    si_units,
    corner_grounded,
)
