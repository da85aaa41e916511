"""What the office can know of what a phone still holds, from what arrived and when it was last heard. Pure.

A phone sends its oldest entry first, so whatever it still holds was written after the newest that is here.
"""

from datetime import datetime, timedelta

from rackside.records import clock
from rackside.records.deliveries import Delivery, Photos

AGES = ((86400, "days"), (3600, "hours"), (60, "minutes"))
SILENT = timedelta(days=7)
# A clock further ahead than this is told of; then nothing follows from what it wrote.
AHEAD = timedelta(minutes=2)


def age(seconds: float) -> str:
    """Return a time span as coarsely as it matters."""
    for size, word in AGES:
        if seconds >= 2 * size:
            return f"{int(seconds // size)} {word}"
    return "less than two minutes"


def held(delivery: Delivery | None, photos: Photos | None, now: datetime) -> list[str]:
    """Return what may still be on a phone, one sentence for each thing that is known."""
    told = []
    if delivery is None:
        told.append("no entry written on it is here, so nothing is known of more")
    elif clock.read(delivery.newest) - clock.read(delivery.at) > AHEAD:
        told.append("its clock is ahead, so nothing follows from its times")
    else:
        since = (now - clock.read(delivery.newest)).total_seconds()
        told.append(f"what it may still hold is {_at_most(since)} old")
    if photos:
        waited = age((now - clock.read(photos.since)).total_seconds())
        named = "1 photo is" if photos.count == 1 else f"{photos.count} photos are"
        told.append(f"{named} announced and not here, the longest for {waited}")
    return told


def silence(last_seen: str | None, now: datetime) -> str:
    """Return for how long a phone has not been heard from, "" where it was lately."""
    quiet = now - clock.read(last_seen) if last_seen else timedelta()
    return f"not heard from for {quiet.days} days" if quiet > SILENT else ""


def _at_most(seconds: float) -> str:
    said = age(seconds)
    return said if said.startswith("less") else f"at most {said}"
