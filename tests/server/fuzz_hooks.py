"""Loaded by schemathesis: names what only this server knows, or nothing behind those checks is ever reached."""

import os
from typing import Any

import schemathesis


@schemathesis.hook
def before_call(context: Any, case: Any, kwargs: Any) -> None:
    """Let most pushes come from the device that signed in, and most keys be without a site nobody knows."""
    body, path = case.body, case.operation.path
    if not isinstance(body, dict) or not len(str(body)) % 5:
        return
    if path.endswith("/entries"):
        case.body = {name: value for name, value in body.items() if name != "epoch"}
        case.body["device"] = os.environ["FUZZ_DEVICE"]
    if path.endswith(("/keys", "/webhooks")):
        case.body = {name: value for name, value in body.items() if name != "sites"}
