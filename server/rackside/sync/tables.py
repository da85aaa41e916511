"""Rows of a spreadsheet as bodies of entries: a column named with dots goes inside. Pure."""

import csv
import io
import re
from typing import Any

from rackside.records import Refused
from rackside.sync.fields import CASE_PART, OWN

NUMBER = re.compile(r"-?\d{1,15}(\.\d{1,15})?", re.ASCII)
# What stays text however much it looks like a number.
TEXTS = {name for fields in (*OWN.values(), *CASE_PART.values()) for name, form in fields if form.startswith("text")}
TEXTS |= {"id", "site", "sites", "password", "time_zone"}
OTHER_MARKS = {";": "semicolons", "\t": "tabs", "|": "bars"}
WORDS = {"true": True, "false": False}
Json = dict[str, Any]


def rows_of(text: str) -> list[Json]:
    """Return a CSV text as rows; an empty cell says nothing."""
    table = csv.reader(io.StringIO(text.removeprefix("\ufeff")), strict=True)
    try:
        header, *lines = [line for line in table if any(cell.strip() for cell in line)] or [[]]
    except csv.Error as error:
        raise Refused("not_csv", f"Line {table.line_num}: {error}.") from error
    names = [name.strip() for name in header]
    for mark, word in OTHER_MARKS.items():
        if len(names) == 1 and mark in names[0]:
            raise Refused(
                "not_csv", f"The first line is parted by {word}; save the table with commas between its cells."
            )
    if not names or not all(names) or len(set(names)) != len(names):
        raise Refused("not_csv", "The first line names every column once.")
    return [_row(names, line, number) for number, line in enumerate(lines, 2)]


def _row(names: list[str], line: list[str], number: int) -> Json:
    if len(line) > len(names):
        raise Refused("not_csv", f"Line {number} has {len(line)} cells, the first line {len(names)}.")
    row: Json = {}
    for name, cell in zip(names, line, strict=False):
        if cell.strip():
            *outer, last = name.split(".")
            place = row
            for step in outer:
                inner = place.setdefault(step, {})
                place = inner if isinstance(inner, dict) else {}
            place[last] = _value(last, cell.strip())
    return row


def _value(name: str, cell: str) -> Any:
    if name == "sites":
        return [one.strip() for one in cell.split(";") if one.strip()]
    if name in TEXTS:
        return cell
    if NUMBER.fullmatch(cell):
        return float(cell) if "." in cell else int(cell)
    return WORDS.get(cell.lower(), cell)
