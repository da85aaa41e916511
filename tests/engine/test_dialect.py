"""The engine stays in the dialect that the phone's runtime also speaks."""

import ast
from pathlib import Path

import pytest

from rackside.host import ENGINE

FILES = sorted(ENGINE.rglob("*.py"))
ALLOWED_IMPORTS = {"math", "json"}
FORBIDDEN_CALLS = {"round", "format", "open", "eval", "exec", "isascii", "casefold", "removeprefix", "removesuffix"}
# The engine's own door has that name; it touches no file.
OWN_DOORS = {"entry.py": {"open"}}
FORBIDDEN_NODES = (
    ast.Match,
    ast.AsyncFunctionDef,
    ast.Await,
    ast.YieldFrom,
    ast.Global,
    ast.Nonlocal,
    ast.NamedExpr,
    ast.With,
)


def problems(source: str, name: str = "some.py") -> list[str]:
    """Return what a file uses that MicroPython lacks or does differently."""
    tree = ast.parse(source)
    found = []
    for node in ast.walk(tree):
        found.extend(f"line {getattr(node, 'lineno', 0)}: {told}" for told in _of_node(node, name))
    return found + [f"{function}: calls itself" for function in _recursive(tree)]


def _of_node(node: ast.AST, name: str) -> list[str]:
    if isinstance(node, FORBIDDEN_NODES):
        return [type(node).__name__]
    if isinstance(node, ast.Import):
        return [f"imports {alias.name}" for alias in node.names if alias.name not in ALLOWED_IMPORTS]
    if isinstance(node, ast.ImportFrom) and node.level == 0 and not (name == "kinds.py" and node.module == "typing"):
        return [f"imports {node.module}"]
    if isinstance(node, ast.Call):
        return _of_call(node, name)
    if isinstance(node, ast.FormattedValue) and node.format_spec is not None:
        return ["a format in an f-string"]
    if (
        isinstance(node, ast.BinOp)
        and isinstance(node.op, ast.Mod)
        and isinstance(node.left, (ast.JoinedStr, ast.Constant))
    ):
        return ["% formatting"] if not isinstance(getattr(node.left, "value", ""), (int, float)) else []
    if isinstance(node, ast.Raise) and node.cause is not None:
        return ["raise … from"]
    if isinstance(node, ast.ClassDef) and node.decorator_list:
        return ["a class decorator"]
    return []


def _of_call(node: ast.Call, name: str) -> list[str]:
    called = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
    if called in FORBIDDEN_CALLS - OWN_DOORS.get(name, set()):
        return [f"calls {called}()"]
    if called == "sum":
        return ["sum(): of floats it depends on the version; add in a loop"]
    if called == "zip" and node.keywords:
        return ["zip() with a keyword"]
    return []


def _recursive(tree: ast.AST) -> list[str]:
    functions = [node for node in ast.iter_child_nodes(tree) if isinstance(node, ast.FunctionDef)]
    names = {node.name for node in functions}
    calls = {
        node.name: {
            call.func.id
            for call in ast.walk(node)
            if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id in names
        }
        for node in functions
    }
    return [name for name in calls if _reaches(name, name, calls)]


def _reaches(start: str, wanted: str, calls: dict[str, set[str]]) -> bool:
    seen: set[str] = set()
    waiting = list(calls.get(start, ()))
    while waiting:
        one = waiting.pop()
        if one == wanted:
            return True
        if one not in seen:
            seen.add(one)
            waiting.extend(calls.get(one, ()))
    return False


@pytest.mark.parametrize("path", FILES, ids=[str(path.relative_to(ENGINE)) for path in FILES])
def test_every_file_stays_in_the_dialect(path: Path) -> None:
    assert problems(path.read_text(encoding="utf-8"), path.name) == []


@pytest.mark.parametrize(
    "source",
    [
        "round(2.5)",
        "sum([0.1, 0.2])",
        'f"{x:.2f}"',
        '"%d" % x',
        "match x:\n    case 1: pass",
        "import os",
        "from typing import Any",
        "def f(n):\n    return f(n - 1)",
        "def f(n):\n    return g(n)\ndef g(n):\n    return f(n)",
        "zip(a, b, strict=True)",
        "try:\n    pass\nexcept ValueError as e:\n    raise KeyError() from e",
        "@dataclass\nclass A: pass",
        "open('x')",
    ],
)
def test_what_the_dialect_lacks_is_refused(source: str) -> None:
    assert problems(source)
