"""The one exception with which the server says no, by a stable code."""

from typing import Any


class Refused(Exception):
    """A request or entry refused: `code` is permanent, `detail` says what was wrong this time."""

    def __init__(self, code: str, detail: str, **members: Any) -> None:
        super().__init__(detail)
        self.code = code
        self.detail = detail
        self.members = members
