"""Names for types, in a form that both CPython and MicroPython import."""

try:
    from typing import Any as Any

    Json = dict[str, Any]
except ImportError:
    Any = Json = object  # type: ignore[misc,assignment]
