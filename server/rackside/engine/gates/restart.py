"""Before one witnessed start. Source: CHECKS.md, Gates."""

from .. import moment
from ..kinds import Any, Json
from ..limits import CANNOT_TELL, FAIL
from ..open_items import JUMPER, open_items
from ..physics.refrigerant import dew_temperature
from ..points.point import RUNNING, STOPPED
from ..reading import Reading
from ..timeline import LOCKED_WAIT, MOST_ATTEMPTS, START_WAIT
from .gate import Block, Need
from .known import Known, fails, name_of, reading_of

UNBALANCE_LIMIT = 5.0
WARM_SUMP_F = 20.0
STOPPED_LONG = 1800.0
FULL_GLASS = 0.9375
LEAD_WORK = ("lead_lifted", "lead_restored", "leads_rolled")
FEED_PARTS = ("contactor", "cable", "breaker", "disconnect", "starter", "transformer")
FLOODED_SIGNS = ("oil_glass_full", "oil_foam", "frost_on_crankcase")


def restart_needs(known: Known) -> "list[Need]":
    """Return what a start needs beyond what a reset needs."""
    needs = [Need("stopped_volts", "line_voltage", _volts(known))]
    needs.append(Need("crankcase_above_atmosphere", "crankcase_pressure", _above_atmosphere(known)))
    if known.machine.kind() != "welded" or known.readings("oil_level"):
        needs.append(Need("oil_level", "oil_level", oil_line_seen(known)))
    if not _stopped_briefly(known):
        needs.append(Need("sump_temperature", "sump_temperature", warm_sump(known)))
    for sign in ("valves_stated", "terminal_cover_on"):
        needs.append(Need(sign, "", "sign:" + sign if known.call.sign(sign) else None))
    if known.machine.form() in ("scroll", "screw") and _lead_or_supply_work(known) is not None:
        needs.append(Need("phase_sequence", "phase_sequence", _sequence(known)))
    if next_start(known) is not None:
        needs.append(_waited(known))
    if len(known.timeline.locked) >= MOST_ATTEMPTS:
        needs.append(Need("attempts", "", None))
    return needs


def _volts(known: Known) -> "str | None":
    """Return the reading by which the standing volts are within 10 % and unbalanced by 5 % at most."""
    live = [reading for state in (STOPPED, RUNNING) for reading in known.readings("line_voltage", state)]
    stopped = [reading for reading in live if reading.state != RUNNING] or live
    for reading in reversed(stopped):
        level = _finding_on(known, "supply_voltage_level", reading)
        unbalance = _finding_on(known, "supply_voltage_unbalance", reading)
        if level is None or level.verdict in (FAIL, CANNOT_TELL):
            if _dead(reading):
                continue
            return None
        if unbalance is None or unbalance.value is None or unbalance.value > UNBALANCE_LIMIT:
            return None
        return name_of(reading)
    return None


def _dead(reading: Reading) -> bool:
    """Return whether nothing arrived there: an open device above it, no verdict on the supply."""
    return max([quantity.value for quantity in reading.quantities()]) < 50.0


def _finding_on(known: Known, check: str, reading: Reading) -> Any:
    for _, finding in known.findings(check):
        if reading.id in finding.readings:
            return finding
    return None


def _above_atmosphere(known: Known) -> "str | None":
    reading = known.latest("crankcase_pressure")
    if reading is not None and reading.value is not None:
        return name_of(reading) if reading.value.value > 0.0 else None
    return "sign:crankcase_above_atmosphere" if known.call.sign("crankcase_above_atmosphere") else None


def in_vacuum(known: Known) -> bool:
    """Return whether the crankcase was found below atmosphere."""
    value = known.value("crankcase_pressure")
    if value is not None:
        return value < 0.0
    return known.call.signs.get("crankcase_above_atmosphere") is False


def oil_line_seen(known: Known) -> "str | None":
    """Return the reading that shows an oil line below the top of the glass, unless a later look saw none."""
    reading = known.latest("oil_level")
    if reading is None or reading.value is None or not 0.0 < reading.value.value < FULL_GLASS:
        return None
    read_at = known.when(reading)
    for sign in ("oil_line_not_seen", "oil_glass_full"):
        seen_at = known.sign_at(sign)
        left = bool(known.readings("oil_level")) and _is_as_left(known, reading)
        later = read_at is not None and seen_at is not None and read_at > seen_at
        if known.call.sign(sign) and not (later or (seen_at is None and left)):
            return None
    return name_of(reading)


def _is_as_left(known: Known, reading: Reading) -> bool:
    return bool([round_ for round_, _ in known.judged if round_.label == "as_left" and reading in round_.readings])


def warm_sump(known: Known) -> "str | None":
    """Return the reading that shows the sump 20 F over ambient or over saturated suction."""
    sump = known.latest("sump_temperature")
    if sump is None or sump.value is None:
        return None
    edges = [known.value("ambient_temperature")]
    suction = known.value("suction_pressure")
    if suction is not None:
        edges.append(dew_temperature(known.machine.word("refrigerant"), suction + known.machine.atmosphere()))
    for edge in edges:
        if edge is not None and sump.value.value >= edge + WARM_SUMP_F:
            return name_of(sump)
    return None


def _stopped_briefly(known: Known) -> bool:
    """Return whether it stopped less than half an hour ago, by the log or by its last running reading."""
    times = [
        moment.seconds(event["at"])
        for event in known.call.events
        if event["what"] in ("stop", "trip") and event.get("at")
    ]
    for round_, _ in known.judged:
        for reading in round_.readings:
            if reading.sound() and reading.state == RUNNING and not reading.option("twin"):
                times.append(reading.at if reading.at is not None else round_.at)
    dated = [time for time in times if time is not None]
    return bool(dated) and known.call.now is not None and known.call.now - max(dated) < STOPPED_LONG


def _in_the_feed(part: Json) -> bool:
    """Return whether a part sits between supply and motor, so that leads came off to fit it."""
    words = str(part.get("what") or "").lower()
    return bool([name for name in FEED_PARTS if name in words])


def _lead_or_supply_work(known: Known) -> "float | None":
    """Return when leads or supply were last worked on; 0 when it happened at a time not known, None when not."""
    fitted = [action for action in known.actions(("part_fitted",)) if _in_the_feed(action)]
    worked = known.actions(LEAD_WORK) + fitted
    if worked:
        return max([moment.seconds(action.get("at") or "") or 0.0 for action in worked])
    return 0.0 if known.call.sign("storm_or_outage") else None


def _sequence(known: Known) -> "str | None":
    reading = known.latest("phase_sequence")
    worked = _lead_or_supply_work(known) or 0.0
    if reading is None or reading.word != "forward":
        return None
    at = known.when(reading)
    return name_of(reading) if at is None or at >= worked else None


def _waited(known: Known) -> Need:
    """Return the need to wait: 5 min after a start, 30 min after a locked attempt."""
    due, now = next_start(known) or 0.0, known.call.now
    values = {"due": moment.written(due, moment.zone_of(known.call.now_text)) if known.call.now_text else None}
    return Need("start_wait", "", "log" if now is not None and now >= due else None, values)


def next_start(known: Known) -> "float | None":
    """Return from when the next start is allowed, None when no start is known."""
    times = []
    if known.timeline.last_start() is not None:
        times.append((known.timeline.last_start() or 0.0) + START_WAIT)
    if known.timeline.last_locked() is not None:
        times.append((known.timeline.last_locked() or 0.0) + LOCKED_WAIT)
    return max(times) if times else None


def restart_blocks(known: Known) -> "list[Block]":
    """Return what shuts the start beyond what shuts the reset."""
    blocks = []
    if known.call.sign("terminal_leak"):
        blocks.append(Block("terminal_leak", "sign:terminal_leak", False))
    if in_vacuum(known):
        blocks.append(Block("vacuum", "reading:crankcase_pressure", False))
    if [item for item in open_items(known.call) if item.kind == JUMPER]:
        blocks.append(Block("jumper", "jumper_on"))
    if _winding_shown(known):
        blocks.append(Block("winding_follows_motor", reading_of(known.decided["winding_balance"])))
    colour = known.latest("oil_colour")
    if colour is not None and colour.word == "glitter" and known.call.sign("knock"):
        blocks.append(Block("glitter_and_knock", name_of(colour)))
    if flooded(known):
        blocks.append(Block("floodback_cold_sump", "sump_temperature"))
    if known.call.sign("on_generator") and fails(known, "start_voltage_sag"):
        blocks.append(Block("generator_sag", reading_of(known.decided["start_voltage_sag"])))
    return blocks


def _winding_shown(known: Known) -> bool:
    """Return whether the winding fails leads off and the high leg moved with the motor."""
    balance = [finding for _, finding in known.findings("winding_balance") if finding.carries]
    roll = [finding for _, finding in known.findings("lead_roll")]
    follows = bool(roll) and roll[-1].detail.get("follows") == "motor"
    return bool(balance) and balance[-1].verdict == FAIL and fails(known, "winding_balance") and follows


def flooded(known: Known) -> bool:
    """Return whether liquid was seen and the sump is cold: below its running limit, or not 20 F over the room."""
    if not [sign for sign in FLOODED_SIGNS if known.call.sign(sign)]:
        return False
    sump = known.latest("sump_temperature")
    if sump is None or sump.value is None:
        return False
    if sump.state == RUNNING:
        return fails(known, "sump_superheat")
    ambient = known.value("ambient_temperature")
    return sump.value.value < ambient + WARM_SUMP_F if ambient is not None else warm_sump(known) is None
