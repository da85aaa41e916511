"""Runs schemathesis over the whole document of a running server, as one role."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any, NamedTuple

from tests.server.house import House, Phone, story

ROLES = ("technician", "office", "admin", "key", "nobody")
CHECKS = (
    "not_a_server_error",
    "status_code_conformance",
    "content_type_conformance",
    "response_headers_conformance",
    "response_schema_conformance",
)
ROOT = Path(__file__).parents[2]
DEVICE = "b1c7f8f2-1d34-4a6a-9f0e-5b7c1a2d3e4f"


class Fuzzed(NamedTuple):
    """Whether all went well, and every request with the status of its answer."""

    passed: bool
    output: str
    answers: list[tuple[str, str, int]]


def caller(house: House, role: str) -> Phone | None:
    """Return somebody of a role, signed in by the device that the document's examples name."""
    if role == "nobody":
        return None
    if role == "key":
        return house.key("fuzz", "read", "write", "analyse")
    house.person("F. Uzz", role)
    return house.sign_in("F. Uzz", DEVICE)


def prepare(house: House) -> None:
    """Give the server something to be found."""
    okafor = house.phone("T. Okafor")
    told = story(okafor)
    okafor.keep(*told.entries)
    okafor.write("submission", {"note": "done"}, told.call)
    admin = house.key("hooks", "admin")
    admin.http.post("/api/v1/webhooks", json={"url": "https://shop.invalid/", "events": ["call.reviewed"]})


def fuzz(house: House, folder: Path, phone: Phone | None, *options: str, document: Path | None = None) -> Fuzzed:
    """Try every operation by its schema; `document` may stand in for the server's own."""
    place = [str(document), "--url", house.url] if document else [f"{house.url}/api/v1/openapi.json"]
    token = ["-H", f"Authorization: {phone.http.headers['authorization']}"] if phone else []
    report = folder / "requests.har"
    command = [str(Path(sys.executable).with_name("st")), "run", *place, *token, "--checks", ",".join(CHECKS)]
    command += ["--seed", "1", "--suppress-health-check", "all", "--warnings", "off", "--no-shrink"]
    command += ["--request-timeout", "60", "--report", "har", "--report-har-path", str(report), *options]
    own = {"SCHEMATHESIS_HOOKS": "tests.server.fuzz_hooks", "FUZZ_DEVICE": phone.device if phone else DEVICE}
    path = os.pathsep.join([str(ROOT), os.environ.get("PYTHONPATH", "")])
    done = subprocess.run(
        command, cwd=folder, env=os.environ | own | {"PYTHONPATH": path}, capture_output=True, text=True
    )
    entries = json.loads(report.read_text())["log"]["entries"] if report.exists() else []
    return Fuzzed(done.returncode == 0, done.stdout + done.stderr, [_answer(one) for one in entries])


def _answer(entry: dict[str, Any]) -> tuple[str, str, int]:
    path = entry["request"]["url"].split("/api/v1", 1)[1].split("?")[0]
    return entry["request"]["method"], path, entry["response"]["status"]
