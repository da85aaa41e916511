"""What an answer is made of. Members may be added, so readers ignore those they don't know."""

from typing import Any

from pydantic import BaseModel


class Told(BaseModel, extra="allow"):
    """A part of an answer."""


class Listed(Told):
    """A page of a list; `next` asks for the following one, null is the end."""

    items: list[Any]
    next: str | None
