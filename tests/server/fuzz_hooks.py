"""Loaded by schemathesis: a push names the device of its token, or nothing behind that check is ever reached."""

import os
from typing import Any

import schemathesis


@schemathesis.hook
def map_body(context: Any, body: Any) -> Any:
    """Let most pushes come from the device that signed in."""
    pushes = context.operation.path.endswith("/entries") and isinstance(body, dict)
    if pushes and len(str(body)) % 5:
        body = {**body, "device": os.environ["FUZZ_DEVICE"]}
        body.pop("epoch", None)
    return body
