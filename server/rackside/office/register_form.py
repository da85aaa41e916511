"""Machines of a site from a table: one row each, all of them or none. Pure."""

import csv
import re
from typing import Any, NamedTuple

from rackside.office.plate_form import FIELDS, put, read_box
from rackside.sync import forms

Json = dict[str, Any]
BY_NAME = {field.place: field for field in FIELDS}
COLUMNS = tuple(BY_NAME)
MOST_ROWS, LARGEST = 500, 200_000
TAG = re.compile(r"\S.{0,39}")


class Read(NamedTuple):
    """The machines of a table, or what is wrong with it, row by row."""

    bodies: list[Json]
    faults: list[str]


def read(text: str, site: str, taken: set[str]) -> Read:
    """Return a machine for each row; with any fault none of them. `taken` are the tags the site has already."""
    if len(text) > LARGEST:
        return Read([], [f"This is {len(text)} characters long; at most {LARGEST} are taken."])
    first = text.strip("\r\n").partition("\n")[0]
    rows = list(csv.reader(text.strip("\r\n").splitlines(), delimiter=max(",;\t", key=first.count)))
    names = [cell.strip().lower().replace(" ", "_") for cell in rows[0]] if rows else []
    faults = _column_faults(names)
    if not faults and not 1 < len(rows) <= MOST_ROWS + 1:
        faults = [f"The table has {len(rows) - 1} rows below the names of its columns; 1 to {MOST_ROWS} are taken."]
    if faults:
        return Read([], faults)
    bodies, seen = [], set(taken)
    for number, row in enumerate(rows[1:], 2):
        body, wrong = _machine(names, row, site, seen)
        faults += [f"Row {number}: {told}" for told in wrong]
        bodies.append(body)
        seen.add(body.get("tag", ""))
    return Read([], faults) if faults else Read(bodies, [])


def _column_faults(names: list[str]) -> list[str]:
    if not names:
        return ["Nothing was pasted: a first row with the names of the columns, then a row for each machine."]
    faults = [f"Column {place} is called {name!r}, which is not known." for place, name in _unknown(names)]
    faults += [f"The column {name} stands there twice." for name in sorted({*names}) if names.count(name) > 1]
    if "tag" not in names:
        faults.append("A column named tag is missing.")
    return faults


def _unknown(names: list[str]) -> list[tuple[int, str]]:
    return [(place, name) for place, name in enumerate(names, 1) if name not in BY_NAME]


def _machine(names: list[str], row: list[str], site: str, seen: set[str]) -> tuple[Json, list[str]]:
    if len(row) != len(names):
        return {}, [f"{len(row)} cells; the first row names {len(names)} columns."]
    body: Json = {"site": site}
    for name, cell in zip(names, row, strict=True):
        typed = " ".join(cell.split())
        if typed:
            put(body, name, read_box(BY_NAME[name], typed))
    tag = body.get("tag", "")
    faults = [] if TAG.fullmatch(str(tag)) else ["the tag is missing."]
    if tag in seen:
        faults.append(f"the tag {tag!r} is there already.")
    found = forms.body_faults("machine", body)
    return body, faults + [f"{_column(fault)}: {fault['detail']}" for fault in found]


def _column(fault: dict[str, str]) -> str:
    return fault["pointer"].removeprefix("/body/").replace("/", ".")
