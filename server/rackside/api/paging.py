"""The parameters and the answer of every list."""

from typing import Annotated, Any

from fastapi import Query

Limit = Annotated[int, Query(ge=1, le=500, description="Most items on a page")]
After = Annotated[str | None, Query(max_length=200, description="The `next` of the page before")]
Since = Annotated[
    str | None, Query(max_length=64, description="Only what changed after this time, or after this cursor")
]


def paged(items: list[dict[str, Any]], following: str | None) -> dict[str, Any]:
    """Return a page of a list."""
    return {"items": items, "next": following}
