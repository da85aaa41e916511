"""What became of an attempt to deliver, in words."""

from typing import Any

Json = dict[str, Any]
ANSWERS = {
    401: "it wants other credentials than the signature",
    403: "it lets nobody in",
    404: "there is nothing at this address",
    410: "it wants to be told no more",
    413: "the message is too long for it",
    429: "it asks to be told more slowly",
}
REDIRECT = "redirects are not followed; give the address it leads to"
FORBIDDEN, OUT_OF_TIME = "refused: ", "Timeout"
SETTING = "Only RACKSIDE_WEBHOOKS_PRIVATE lets a webhook go there."


def with_reasons(delivery: Json) -> Json:
    """Return a delivery whose every attempt says in words what became of it."""
    return delivery | {"log": [attempt | {"reason": reason_of(attempt)} for attempt in delivery["log"]]}


def reason_of(attempt: Json) -> str:
    """Return one sentence about an attempt."""
    status, error = attempt["status"], attempt["error"] or ""
    if status is not None:
        return _answered(status)
    if error.startswith(FORBIDDEN):
        return f"Not sent: {error.removeprefix(FORBIDDEN)}. {SETTING}"
    kind, _, more = error.partition(": ")
    said = f"No whole answer in time ({more or kind})" if OUT_OF_TIME in kind else f"Not reached: {more or kind}"
    return said.rstrip(".") + "."


def _answered(status: int) -> str:
    if 200 <= status < 300:
        return f"Taken, with {status}."
    why = REDIRECT if 300 <= status < 400 else ANSWERS.get(status)
    return f"It answered {status}: {why}." if why else f"It answered {status}."
