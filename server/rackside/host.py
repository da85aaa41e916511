"""The engine as the server runs it: its files, their digest, and its doors as dict in, dict out."""

import hashlib
import json
from functools import cache
from pathlib import Path
from typing import Any

from rackside.engine import entry

ENGINE = Path(entry.__file__).parent


class InvalidCase(ValueError):
    """A case or a log the engine will not judge; `errors` lists each fault with its JSON pointer."""

    def __init__(self, errors: list[dict[str, str]]) -> None:
        super().__init__("; ".join(f"{error['pointer']}: {error['detail']}" for error in errors))
        self.errors = errors


class EngineFailed(RuntimeError):
    """The engine broke on something it should have answered: a fault of the engine, not of the case."""


@cache
def files() -> tuple[str, ...]:
    """Return the engine's source files by their path under engine/, sorted."""
    return tuple(sorted(path.relative_to(ENGINE).as_posix() for path in ENGINE.rglob("*.py")))


@cache
def checks() -> tuple[str, ...]:
    """Return the names of the checks: one file each."""
    return tuple(sorted(path.stem for path in (ENGINE / "checks").glob("*.py") if path.stem != "__init__"))


@cache
def languages() -> tuple[str, ...]:
    """Return the languages that sentences can be had in: one word file each."""
    return tuple(sorted(path.stem for path in (ENGINE / "words").glob("*.py") if path.stem != "__init__"))


@cache
def digest() -> str:
    """Return the sha256 that names this engine exactly."""
    total = hashlib.sha256()
    for name in files():
        total.update(name.encode() + b"\0" + (ENGINE / name).read_bytes() + b"\0")
    return total.hexdigest()


@cache
def _loaded() -> Any:
    entry.load(list(checks()), digest())
    return entry


@cache
def _described(language: str) -> str:
    text: str = _loaded().describe(language)
    return text


def describe(language: str = "en") -> dict[str, Any]:
    """Return the vocabulary: points, checks, gates and every word that is allowed."""
    words: dict[str, Any] = json.loads(_described(language))
    return words


def compose(log: dict[str, Any]) -> dict[str, Any]:
    """Return the case that the entries of one call make."""
    return _parsed(_asked("compose", json.dumps(log)))


def judge(case: dict[str, Any], language: str = "en") -> dict[str, Any]:
    """Return the result of a case."""
    return _parsed(_asked("judge", json.dumps(case), language))


def judge_text(case: str, language: str = "en") -> str:
    """Return the result of a case as the engine wrote it, not parsed again."""
    text = _asked("judge", case, language)
    if text.startswith('{"errors"'):
        _parsed(text)
    return text


def _asked(door: str, *told: str) -> str:
    try:
        text: str = getattr(_loaded(), door)(*told)
    except Exception as error:
        raise EngineFailed(f"The engine failed at {door}: {type(error).__name__}: {error}") from error
    return text


def _parsed(text: str) -> dict[str, Any]:
    answer: dict[str, Any] = json.loads(text)
    if "errors" in answer:
        raise InvalidCase(answer["errors"])
    return answer
