"""One call as it is written down: rounds, readings, what was seen and done, and how it ended."""

from datetime import datetime, timedelta
from typing import Any

from .drawings import drawn
from .people import CASTELLANOS, Person
from .story import LEGS, METER_OF, Story

NARROW = timedelta(minutes=1)
# What a person states before power goes on.
READY_TO_START = ("valves_stated", "terminal_cover_on")


class Visit:
    """Writes the entries of one call; time moves on a minute with each of them."""

    def __init__(self, story: Story, name: str, tag: str, technician: Person, opened: datetime) -> None:
        self.story = story
        self.name = name
        self.tag = tag
        self.technician = technician
        self.at = opened
        self.call = self.last_call_entry = story.id_of(f"{name} call")
        self.count = 0
        self.marks: dict[str, Any] = {}

    def open(self, complaint: str, reported: str = "", by: Person | None = None, **more: Any) -> "Visit":
        """Write the call itself; the technician opens it unless somebody else does."""
        body: dict[str, Any] = {"machine": self.story.machines[self.tag], "complaint": complaint}
        body |= {"opened_at": self.at.isoformat(), "assigned_to": self.technician.name, **more}
        if reported:
            body["reported"] = reported
        self.story.write(f"{self.name} call", "call", body, by or self.technician, self.at, self.call)
        return self

    def write(self, kind: str, body: dict[str, Any], by: Person | None = None, base: tuple[str, ...] = ()) -> str:
        """Write one entry of this call and move the clock on."""
        self.at += NARROW
        self.count += 1
        name = f"{self.name} {self.count} {kind}"
        return self.story.write(name, kind, body, by or self.technician, self.at, self.call, base)

    def wait(self, minutes: float) -> "Visit":
        self.at += timedelta(minutes=minutes)
        return self

    def round(self, label: str) -> "Round":
        return Round(self, self.write("round", {"label": label, "at": self.at.isoformat()}))

    def signs(self, *names: str, note: str = "") -> "Visit":
        for sign in names:
            self.write("sign", {"sign": sign, "present": True, **({"note": note} if note else {})})
        return self

    def absent(self, *names: str) -> "Visit":
        for sign in names:
            self.write("sign", {"sign": sign, "present": False})
        return self

    def marked(self, *done: str) -> "Visit":
        """Mark steps as done, one after the other, as a phone does: on the call itself."""
        for mark in done:
            self._mark("done", mark, self.at.isoformat())
        return self

    def left_out(self, step: str, reason: str) -> "Visit":
        return self._mark("skipped", step, {"reason": reason, "at": self.at.isoformat()})

    def _mark(self, part: str, name: str, value: Any) -> "Visit":
        self.marks = {**self.marks, part: {**self.marks.get(part, {}), name: value}}
        self.last_call_entry = self.write("call", {"extra": self.marks}, base=(self.last_call_entry,))
        return self

    def event(self, device: str, what: str, at: datetime, text: str = "", motor_ran: bool | None = None) -> "Visit":
        body = {"at": at.isoformat(), "device": device, "what": what, "text": text, "by": "unknown"}
        self.write("event", {**body, "motor_ran": motor_ran, "source": "controller log"})
        return self

    def action(self, kind: str, what: str, before: str = "", after: str = "", closes: str | None = None) -> str:
        body = {"at": self.at.isoformat(), "kind": kind, "what": what, "before": before, "after": after}
        return self.write("action", {**body, "closes": closes, "by": self.technician.name})

    def decide(self, decision: str, cause: str, reason: str, watch_days: int = 0, repair: str | None = None) -> "Visit":
        body: dict[str, Any] = {"decision": decision, "cause": cause, "reason": reason}
        if watch_days:
            body["watch_until"] = (self.at + timedelta(days=watch_days)).isoformat()
        if repair:
            body["repair"] = repair
        self.write("decision", body)
        return self

    def line(self, kind: str, what: str, quantity: str, price: str) -> "Visit":
        self.write("line", {"kind": kind, "what": what, "quantity": quantity, "price": price, "currency": "USD"})
        return self

    def photo(self, shows: str, caption: str, drawing: str, *texts: str, of: str | None = None) -> str:
        """Announce a photo; its bytes wait beside the story."""
        content = drawn(drawing, *texts)
        body: dict[str, Any] = {"sha256": self.story.picture(content), "media_type": "image/png"}
        body |= {"size": len(content), "shows": shows, "caption": caption, "taken_at": self.at.isoformat()}
        return self.write("photo", {**body, "of": of} if of else body)

    def signed(self, who: str, role: str) -> "Visit":
        """Write the customer's signature with its picture."""
        picture = self.photo("other", f"signature of {who}", "signature", who)
        self.write("signature", {"who": who, "role": role, "photo": picture})
        return self

    def submit(self, note: str = "") -> str:
        return self.write("submission", {"note": note})

    def review(self, of: str, outcome: str, note: str = "", hours: float = 15) -> "Visit":
        """Write what the office answered, some hours later."""
        self.wait(hours * 60)
        self.write("review", {"outcome": outcome, "note": note, "of": of}, CASTELLANOS)
        return self


class Round:
    """One set of readings of a visit."""

    def __init__(self, visit: Visit, id_: str) -> None:
        self.visit = visit
        self.id = id_

    def legs(self, point: str, values: str, unit: str, state: str, **more: Any) -> str:
        """Write a reading of several legs; values are text separated by spaces, as read."""
        legs = dict(zip(LEGS[point], values.split(), strict=True))
        return self._reading({"point": point, "legs": legs, "unit": unit}, state, more)

    def value(self, point: str, value: str, unit: str = "", state: str = "", **more: Any) -> str:
        reading = {"point": point, "value": value}
        return self._reading({**reading, "unit": unit} if unit else reading, state, more)

    def not_taken(self, point: str, why: str) -> str:
        return self.visit.write("reading", {"round": self.id, "point": point, "not_taken": why})

    def net_oil(self, net: int, crankcase: int, **more: Any) -> None:
        """Write both gauges of one moment; only the two together tell the net pressure."""
        self.value("crankcase_pressure", str(crankcase), "psig", "running", **more)
        self.value("pump_pressure", str(crankcase + net), "psig", "running", **more)

    def _reading(self, reading: dict[str, Any], state: str, more: dict[str, Any]) -> str:
        visit = self.visit
        meter = visit.story.meters.get((visit.technician, METER_OF.get(reading["point"], "")))
        body = {"round": self.id, **reading, "state": state, "meter": meter, "at": visit.at.isoformat(), **more}
        return visit.write("reading", {name: value for name, value in body.items() if value not in ("", None)})

    def correct(self, wrong: str, **members: Any) -> str:
        """Write a correction of an earlier reading: only the members that change."""
        return self.visit.write("reading", members, base=(wrong,))
