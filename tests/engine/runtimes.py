"""Run the engine's doors on MicroPython and compare answers with CPython's."""

import json
import math
import shutil
import subprocess
from pathlib import Path
from typing import Any

from rackside import host
from rackside.engine import entry

ROOT = Path(__file__).parents[2]
MICROPYTHON = ROOT / "web" / "vendor" / "micropython" / "micropython.mjs"


def on_micropython(requests: list[list[str]]) -> tuple[list[str], list[float]]:
    """Answer requests [door, text, …] on MicroPython under Node: the texts and the seconds each took."""
    node = shutil.which("node")
    assert node, "Node is needed to run the phone's runtime: install nodejs"
    assert MICROPYTHON.exists(), "web/vendor is empty: run make setup"
    command = [node, str(Path(__file__).with_name("runtime.mjs")), str(MICROPYTHON), str(host.ENGINE), host.digest()]
    told = subprocess.run(command, input=json.dumps(requests), capture_output=True, text=True, timeout=300, check=False)
    assert told.returncode == 0, told.stderr[-1500:]
    answered = json.loads(told.stdout)
    return answered["answers"], answered["seconds"]


def on_cpython(requests: list[list[str]]) -> list[str]:
    return [getattr(entry, door)(*given) for door, *given in requests]


def difference(one: Any, other: Any, where: str = "") -> str:
    """Return where two parsed answers differ, "" when they don't; numbers may differ by 1e-12 relative."""
    if isinstance(one, bool) or isinstance(other, bool) or not isinstance(one, (int, float)):
        return _unequal(one, other, where)
    if isinstance(other, (int, float)) and math.isclose(one, other, rel_tol=1e-12, abs_tol=1e-12):
        return ""
    return f"{where}: {one!r} is not {other!r}"


def _unequal(one: Any, other: Any, where: str) -> str:
    if isinstance(one, dict) and isinstance(other, dict) and one.keys() == other.keys():
        found = [difference(one[key], other[key], f"{where}/{key}") for key in one]
    elif isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        found = [difference(a, b, f"{where}/{index}") for index, (a, b) in enumerate(zip(one, other, strict=True))]
    else:
        found = [] if type(one) is type(other) and one == other else [f"{where}: {one!r} is not {other!r}"]
    return next((told for told in found if told), "")
