"""What requests and their answers look like: recorded from a run over the demo, and run again by a test."""

import json
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

Json = dict[str, Any]
FILE = Path(__file__).with_name("examples.jsonl")


@cache
def examples() -> tuple[Json, ...]:
    """Return every example in the order of the run: each is a request with its answer, lists cut short."""
    return tuple(json.loads(line) for line in FILE.read_text(encoding="utf-8").splitlines())


def illustrate(paths: Json, prefix: str) -> None:
    """Put the examples where readers and tools look for them: at parameters, bodies and answers."""
    for example in examples():
        operation = paths[prefix + example["path"]][example["method"].lower()]
        given = example["in_path"] | example["query"]
        for parameter in operation.get("parameters", ()):
            if parameter["name"] in given:
                parameter["example"] = given[parameter["name"]]
        if "body" in example:
            operation["requestBody"]["content"][example["body_type"]]["example"] = example["body"]
        if "answer" in example:
            content = operation["responses"][str(example["status"])]["content"]
            content[example["answer_type"]]["example"] = example["answer"]


def request_line(method: str, path: str, operation: Json) -> str:
    """Return the first line of an operation's example."""
    told = [one for one in operation.get("parameters", ()) if "example" in one]
    place = path.format_map({one["name"]: one["example"] for one in told if one["in"] == "path"})
    query = {one["name"]: one["example"] for one in told if one["in"] == "query"}
    asked = urlencode({name: "true" if value is True else value for name, value in query.items()}, doseq=True)
    return f"{method} {place}" + (f"?{asked}" if asked else "")
