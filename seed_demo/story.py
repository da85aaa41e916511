"""Writes entries the way a device would: ids made here, times told, corrections by reference."""

from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from typing import Any, NamedTuple
from uuid import UUID, uuid5

from . import plant
from .people import CASTELLANOS, Person

SITE_KNOWN = timedelta(days=400)
NAMESPACE = UUID("6f1f6a0e-5a52-5d53-9d0c-7c1b7f6f2a11")
LEGS: dict[str, tuple[str, ...]] = {
    "line_voltage": ("L1-L2", "L2-L3", "L3-L1"),
    "start_voltage": ("T1-T2", "T2-T3", "T3-T1"),
    "winding_resistance": ("T1-T2", "T2-T3", "T3-T1"),
    "pole_drop": ("L1-T1", "L2-T2", "L3-T3"),
    "running_current": ("L1", "L2", "L3"),
    "start_current": ("L1", "L2", "L3"),
    "fuse_drop": ("L1", "L2", "L3"),
}
METER_OF: dict[str, str] = {
    **dict.fromkeys(("line_voltage", "start_voltage", "pole_drop", "fuse_drop", "coil_voltage"), "multimeter"),
    **dict.fromkeys(("running_current", "start_current"), "clamp"),
    **dict.fromkeys(("pump_pressure", "crankcase_pressure"), "gauges"),
    "winding_resistance": "four-wire",
    "insulation_resistance": "insulation",
}


class Written(NamedTuple):
    """An entry and the person whose device sends it."""

    by: Person
    at: datetime
    entry: dict[str, Any]


class Story:
    """All entries of the demo; `now` is the moment the demo is told from."""

    def __init__(self, seed: str, now: datetime) -> None:
        self.seed = seed
        self.now = now
        self.written: list[Written] = []
        self.pictures: dict[str, bytes] = {}
        self.site = self.write("site", "site", plant.SITE, CASTELLANOS, self.ago(days=SITE_KNOWN.days))
        self.machines: dict[str, str] = {}
        self.meters: dict[tuple[Person, str], str] = {}

    def told_from(self, site: dict[str, Any] | None) -> datetime:
        """Return the moment an earlier story was told from by its site's entry, else this story's own."""
        return datetime.fromisoformat(site["made_at"]).astimezone(UTC) + SITE_KNOWN if site else self.now

    def id_of(self, name: str) -> str:
        return str(uuid5(NAMESPACE, f"{self.seed}/{name}"))

    def ago(self, **span: float) -> datetime:
        """Return the moment so long before now, in the site's time."""
        return (self.now.astimezone(UTC) - timedelta(**span)).astimezone(self.now.tzinfo)

    def day(self, days: int, clock: str) -> datetime:
        """Return the given hour and minute, so many days before now."""
        hour, minute = clock.split(":")
        return self.ago(days=days).replace(hour=int(hour), minute=int(minute), second=0, microsecond=0)

    def write(
        self,
        name: str,
        kind: str,
        body: dict[str, Any],
        by: Person,
        at: datetime,
        call: str | None = None,
        base: Iterable[str] = (),
    ) -> str:
        """Write one entry and return its id."""
        entry = {"id": self.id_of(name), "schema": 1, "kind": kind, "call": call, "base": list(base)}
        self.written.append(Written(by, at, {**entry, "made_at": at.isoformat(), "body": body}))
        return str(entry["id"])

    def picture(self, content: bytes) -> str:
        """Keep a photo's bytes beside the story and return the name its entry announces."""
        name = sha256(content).hexdigest()
        self.pictures[name] = content
        return name

    def in_order(self) -> list[Written]:
        """Return everything in the order it happened."""
        return sorted(self.written, key=lambda one: one.at)


def set_up_plant(story: Story) -> None:
    """Write the machines and the meters of both vans."""
    for tag in plant.MACHINES:
        body = plant.machine_body(tag, story.site)
        machine = story.write(f"machine {tag}", "machine", body, CASTELLANOS, story.ago(days=399))
        plate = {"outcome": "accepted", "of": machine}
        story.write(f"machine {tag} accepted", "review", plate, CASTELLANOS, story.ago(days=398.9))
        story.machines[tag] = machine
    calibrated = story.ago(days=240).date().isoformat()
    for owner in plant.OWNERS:
        for kind, body in plant.meter_bodies(owner, calibrated).items():
            name = f"meter {owner.name} {kind}"
            story.meters[owner, kind] = story.write(name, "meter", body, owner, story.ago(days=398))
