"""Entries as people make them, by chance from a seed: of what the phone at hand knows, in any order, with any clock."""

import uuid
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from random import Random
from typing import Any

from tests.faults.replica import Replica
from tests.server.house import line_voltage

Json = dict[str, Any]
START = datetime(2026, 10, 14, 21, 40, tzinfo=UTC)
KINDS = ("reading",) * 6 + ("correction",) * 3 + ("sign", "round", "photo", "submission", "retraction", "call", "plant")
YEAR = timedelta(days=365)


class Writer:
    """Makes entries for phones. `made_at` may be a year wrong: no order may depend on it."""

    def __init__(self, chance: Random) -> None:
        self.chance = chance
        self.bad_ids: set[str] = set()

    def id(self) -> str:
        return str(uuid.UUID(int=self.chance.getrandbits(128), version=4))

    def when(self) -> str:
        skew = self.chance.choice((timedelta(), timedelta(), YEAR, -YEAR))
        return (START + skew + timedelta(seconds=self.chance.randrange(86_400))).isoformat()

    def entry(self, phone: Replica, kind: str, body: Json, call: str | None = None, base: tuple[str, ...] = ()) -> Json:
        entry_id = self.id()
        head = {"id": entry_id, "schema": 1, "kind": kind, "base": list(base), "made_at": self.when()}
        own = entry_id if kind == "call" and not base else call
        return head | {"call": own, "device": phone.device, "author": phone.author, "body": body}

    def plant(self, phone: Replica) -> list[Json]:
        """A site with a machine and a call, begun."""
        site = self.entry(phone, "site", {"name": f"Cold store {self.chance.randrange(1000)}"})
        machine = self.entry(phone, "machine", {"site": site["id"], "tag": "B3", "rack": "B"})
        return [site, machine, *self.call(phone, machine["id"])]

    def call(self, phone: Replica, machine: str) -> list[Json]:
        call = self.entry(phone, "call", {"machine": machine, "complaint": "oil_trip"})
        return [call, self.entry(phone, "round", {"label": "as_found"}, call["id"])]

    def some(self, phone: Replica) -> list[Json]:
        """One thing that a person might now do on this phone."""
        make = getattr(self, "_" + self.chance.choice(KINDS))
        return make(phone) or self.plant(phone)

    def _pick(self, phone: Replica, *kinds: str) -> Json | None:
        """Something sound that this phone holds; None when there is none."""
        rows = phone.store.rows
        fit = sorted(name for name, row in rows.items() if row["kind"] in kinds and name not in self.bad_ids)
        return rows[self.chance.choice(fit)] if fit else None

    def _plant(self, phone: Replica) -> list[Json]:
        return self.plant(phone)

    def _call(self, phone: Replica) -> list[Json] | None:
        machine = self._first(self._pick(phone, "machine"), phone)
        return self.call(phone, machine) if machine else None

    def _first(self, version: Json | None, phone: Replica) -> str | None:
        while version and version["base"]:
            version = phone.store.rows.get(version["base"][0])
        return version["id"] if version else None

    def _reading(self, phone: Replica) -> list[Json] | None:
        found = self._pick(phone, "round")
        if found is None:
            return None
        volts = [str(self.chance.randrange(470, 490)) for _ in range(3)]
        return [self.entry(phone, "reading", line_voltage(found["id"], *volts), found["call"])]

    def _correction(self, phone: Replica) -> list[Json] | None:
        """Of any version, also one that somebody else has corrected already."""
        old = self._pick(phone, "reading", "machine")
        if old is None:
            return None
        volts = {leg: str(self.chance.randrange(470, 490)) for leg in ("L1-L2", "L2-L3", "L3-L1")}
        body = {"legs": volts} if old["kind"] == "reading" else {"tag": f"B{self.chance.randrange(9)}"}
        return [self.entry(phone, old["kind"], body, old["call"], (old["id"],))]

    def _sign(self, phone: Replica) -> list[Json] | None:
        return self._in_a_call(phone, "sign", {"sign": "knock", "present": True})

    def _round(self, phone: Replica) -> list[Json] | None:
        return self._in_a_call(phone, "round", {"label": "as_left"})

    def _submission(self, phone: Replica) -> list[Json] | None:
        return self._in_a_call(phone, "submission", {"note": "done"})

    def _photo(self, phone: Replica) -> list[Json] | None:
        name = f"{self.chance.getrandbits(256):064x}"
        return self._in_a_call(phone, "photo", {"sha256": name, "media_type": "image/jpeg", "shows": "oil"})

    def _retraction(self, phone: Replica) -> list[Json] | None:
        old = self._pick(phone, "reading", "sign", "submission")
        return [self.entry(phone, "retraction", {"of": old["id"], "why": "twice"}, old["call"])] if old else None

    def _in_a_call(self, phone: Replica, kind: str, body: Json) -> list[Json] | None:
        call = self._pick(phone, "call")
        return [self.entry(phone, kind, body, call["call"])] if call else None

    def bad(self, phone: Replica) -> Json:
        """An entry the office must refuse, whatever else comes with it."""
        good = self.entry(phone, "site", {"name": "Refused"})
        self.bad_ids.add(good["id"])
        wrong = (
            {"kind": "no_such_kind"},
            {"schema": 99},
            {"author": "Somebody else"},
            {"call": self.id(), "kind": "sign", "body": {"sign": "knock", "present": True}},
            {"body": {"name": "Refused", "typo": 1}},
            {"body": {"name": "x" * 5000}},
        )
        return good | self.chance.choice(wrong)


class Photographer(Writer):
    """A writer whose photos have bytes."""

    def __init__(self, chance: Random) -> None:
        super().__init__(chance)
        self.photos: dict[str, bytes] = {}

    def _photo(self, phone: Replica) -> list[Json] | None:
        picture = b"\x89PNG\r\n\x1a\n" + self.chance.randbytes(2000)
        name = sha256(picture).hexdigest()
        self.photos[name] = picture
        return self._in_a_call(phone, "photo", {"sha256": name, "media_type": "image/png", "shows": "oil"})
