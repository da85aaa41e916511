"""A parameter that an address does not know is refused: a filter with a slip of the pen must not answer everything."""

from collections.abc import Iterator
from typing import Any

from fastapi import Request

from rackside.records import Refused


def _named(asked: Any) -> Iterator[str]:
    """Yield the query parameters of a route and of all it depends on."""
    yield from (parameter.alias for parameter in asked.query_params)
    for other in asked.dependencies:
        yield from _named(other)


async def refuse_unknown(request: Request) -> None:
    """Refuse the first parameter of the query that is not in the address's description."""
    if not request.query_params:
        return
    known = list(dict.fromkeys(_named(request.scope["route"].dependant)))
    for name in request.query_params:
        if name not in known:
            told = f"Unknown parameter. Known here: {', '.join(known) or 'none'}."
            errors = [{"pointer": f"/{name}", "detail": told}]
            raise Refused("invalid_query", f"/{name}: {told}", errors=errors)
