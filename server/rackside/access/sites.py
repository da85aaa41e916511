"""Which sites somebody may give to a person or a key: those there are, and never more than they see themselves."""

from collections.abc import Collection

from sqlalchemy import Connection, select

from rackside.records import Refused
from rackside.records.projected import Site

SITES = Site.__table__  # type: ignore[attr-defined]


def given(connection: Connection, asked: list[str] | None, seen: Collection[str] | None) -> list[str] | None:
    """Return the sites to give; None means all that the giver sees."""
    if asked is None:
        return None if seen is None else sorted(seen)
    known = set(connection.execute(select(SITES.c.id)).scalars())
    for number, site in enumerate(asked):
        if site not in known or (seen is not None and site not in seen):
            told = f"There is no site {site} that you see."
            errors = [{"pointer": f"/sites/{number}", "detail": told}]
            raise Refused("invalid_query", f"/sites/{number}: {told}", errors=errors)
    return list(dict.fromkeys(asked))
