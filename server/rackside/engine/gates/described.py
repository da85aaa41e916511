"""What each gate may ask and what may shut it, for people and programs to read beforehand."""

from ..kinds import Json
from ..say import say, title
from ..vocabulary import GATES
from .service import RUN_IN

_RESET = ("what_opened", "insulation", "insulation_hot", "cable_insulation")
_START = (
    "stopped_volts", "crankcase_above_atmosphere", "oil_level", "sump_temperature", "valves_stated",
    "terminal_cover_on", "phase_sequence", "start_wait", "attempts",
)  # fmt: skip
_RUN_IN = tuple([name for name, _, _ in RUN_IN])
# What each cause needs before it condemns a machine.
CONDEMN_FOR = (
    ("grounded_winding", (
        "leads_off", "terminals_dry", "crankcase_above_atmosphere", "winding_temperature", "two_low_readings",
        "cable_passes", "electronics_off",
    )),
    ("shorted_turns", ("balance_fails_twice", "leads_zeroed", "follows_motor")),
    ("open_winding", ("open_leads_off", "cooled", "terminals_tight")),
    ("seized", (
        "volts_held", "locked_even", "pressures_equal", "unloaded", "sump_temperature", "oil_level", "two_attempts",
    )),
    ("worn_bearings", ("net_oil_low_twice", "oil_fit_to_judge", "superheat_held", "pump_proven", "wear_seen")),
)  # fmt: skip
_ALWAYS = ("second_test", "plate_photo", "approver")
_CONDEMN = ("condemnable_cause",) + tuple([need for _, needs in CONDEMN_FOR for need in needs]) + _ALWAYS
# Sentences that name a moment or a device say it in general here.
_IN_GENERAL = {"start_wait": "need.start_wait.general", "trip_test": "need.trip_test.general"}
_GROUND = ("insulation", "cable_insulation", "winding_ground")
NEEDS = {
    "reset": _RESET,
    "restart": _RESET + _START,
    "return_to_service": ("witnessed_start",) + _RUN_IN + ("cause_named", "closed_out", "trip_test", "watch_date"),
    "condemn": _CONDEMN,
}
# A check that failed in the last round blocks `return_to_service` by its own name.
BLOCKS = {
    "reset": _GROUND,
    "restart": _GROUND + (
        "terminal_leak", "vacuum", "jumper", "winding_follows_motor", "glitter_and_knock", "floodback_cold_sump",
        "generator_sag",
    ),
    "return_to_service": ("trip_in_run_in",),
    "condemn": ("meter_cannot_decide", "cause_is_a_repair"),
}  # fmt: skip


def gates_described(language: str) -> "list[Json]":
    """Return every gate with its needs and blocks in words, and what each cause needs that may condemn."""
    told = [_gate(gate, language) for gate in GATES]
    told[-1]["for"] = [
        {"cause": cause, "text": title("cause", cause, language), "needs": list(needs + _ALWAYS)}
        for cause, needs in CONDEMN_FOR
    ]
    return told


def _gate(gate: str, language: str) -> Json:
    return {
        "gate": gate,
        "text": title("gate", gate, language),
        "needs": [{"need": need, "text": _said(need, language)} for need in NEEDS[gate]],
        "blocks": [{"block": block, "text": say("block." + block, {}, language)} for block in BLOCKS[gate]],
    }


def _said(need: str, language: str) -> str:
    return say(_IN_GENERAL.get(need, "need." + need), {}, language)
