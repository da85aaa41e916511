"""A rating map as it is pasted or read from a CSV file: ten rows C1 to C10, a column for each quantity. Pure."""

import csv
import re
from typing import Any, NamedTuple

Json = dict[str, Any]
QUANTITIES = ("power", "current", "mass_flow", "capacity")
TERMS = tuple(f"C{number}" for number in range(1, 11))
NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?")
KNOWN = f"the columns are term, {', '.join(QUANTITIES)}"
LARGEST = 20_000


class Read(NamedTuple):
    """The map as read, or what is wrong with it, row by row."""

    ratings: Json
    faults: list[str]


def read(text: str) -> Read:
    """Return the columns of a pasted table; with any fault nothing of it is taken."""
    if len(text) > LARGEST:
        return Read({}, [f"This is {len(text)} characters long; a map of ten rows has a few hundred."])
    rows = [row for row in csv.reader(text.strip("\r\n").splitlines(), delimiter=_delimiter(text)) if any(row)]
    if not rows:
        return Read({}, ["Nothing was pasted: a first row with the names of the columns, then C1 to C10."])
    names = [cell.strip().lower().replace(" ", "_") for cell in rows[0]]
    faults = _column_faults(names) or [*_row_faults(names, rows[1:])]
    if faults:
        return Read({}, faults)
    by_term = {row[names.index("term")].strip().upper(): row for row in rows[1:]}
    columns = [name for name in names if name != "term"]
    return Read({name: [float(by_term[term][names.index(name)]) for term in TERMS] for name in columns}, [])


def envelope(form: dict[str, str]) -> tuple[Json, list[str]]:
    """Return the suction and discharge bounds of a form, each as [low, high], and what is wrong with them."""
    found: Json = {}
    faults: list[str] = []
    for side in ("suction", "discharge"):
        low, high = (form.get(f"{side}_{end}", "").strip() for end in ("low", "high"))
        if not low and not high:
            continue
        if not (NUMBER.fullmatch(low) and NUMBER.fullmatch(high)):
            faults.append(f"The envelope's {side} needs both ends as numbers, or neither.")
        elif float(low) >= float(high):
            faults.append(f"The envelope's {side} begins at {low} and ends at {high}: the lower end comes first.")
        else:
            found[side] = [float(low), float(high)]
    return found, faults


def written(ratings: Json) -> str:
    """Return a map as the table one pastes, to begin from."""
    columns = [name for name in QUANTITIES if isinstance(ratings.get(name), list)]
    lines = [["term", *columns]]
    lines += [[term, *(f"{ratings[name][place]:.10g}" for name in columns)] for place, term in enumerate(TERMS)]
    return "\n".join(",".join(line) for line in lines) if columns else "term,power,current\n"


def _delimiter(text: str) -> str:
    first = text.strip("\r\n").partition("\n")[0]
    return max(",;\t", key=first.count)


def _column_faults(names: list[str]) -> list[str]:
    faults = [f"Column {place} is called {name!r}: {KNOWN}." for place, name in enumerate(names, 1) if not _known(name)]
    faults += [f"The column {name} stands there twice." for name in sorted({*names}) if names.count(name) > 1]
    if "term" not in names:
        faults.append(f"A column named term is missing: {KNOWN}.")
    if not {*names} & {*QUANTITIES}:
        faults.append(f"No quantity is there: {KNOWN}.")
    return faults


def _known(name: str) -> bool:
    return name == "term" or name in QUANTITIES


def _row_faults(names: list[str], rows: list[list[str]]) -> list[str]:
    faults, seen = [], []
    for number, row in enumerate(rows, 2):
        if len(row) != len(names):
            faults.append(f"Row {number} has {len(row)} cells; the first row names {len(names)} columns.")
            continue
        term = row[names.index("term")].strip().upper()
        if term not in TERMS or term in seen:
            faults.append(f"Row {number} is {term or 'without a term'!r}: the rows are C1 to C10, each once.")
        seen.append(term)
        for name, cell in zip(names, row, strict=True):
            if name != "term" and not NUMBER.fullmatch(cell.strip()):
                faults.append(f"Row {number}, {name}: {cell.strip()!r} is no number with a decimal point.")
    missing = [term for term in TERMS if term not in seen]
    return faults + ([f"Missing: {', '.join(missing)}."] if missing else [])
