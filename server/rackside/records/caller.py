"""Who is asking, and what they may do. Pure."""

from dataclasses import dataclass, field

from rackside.records.refused import Refused

AS_VERBS = {"admin": "administer"}


@dataclass(frozen=True)
class Caller:
    """A person at a device, or a key. `sites` None means all sites."""

    author: str
    role: str
    device_id: str
    device_name: str
    person_id: str | None
    sites: frozenset[str] | None
    may: frozenset[str] = field(default_factory=frozenset)

    def need(self, right: str) -> None:
        """Refuse when the caller lacks a right."""
        if right not in self.may:
            raise Refused("not_allowed", f"{self.author} has no right to {AS_VERBS.get(right, right)} here.")

    def sees(self, site_id: str | None) -> bool:
        return self.sites is None or site_id is None or site_id in self.sites
