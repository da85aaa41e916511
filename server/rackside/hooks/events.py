"""What webhooks are told of, in words."""

from rackside.records import outbox

WHEN = {
    outbox.SUBMITTED: "A technician sent a call in.",
    outbox.REVIEWED: "The office accepted a call or sent it back.",
    outbox.OVERRULED: "Somebody passed an unmet need of a gate, with name and reason.",
    outbox.CONDEMNED: "A decision to condemn was written; the call's state says whether the office accepted it yet.",
    outbox.WATCH_DUE: "The watch window of an accepted call has passed.",
}
TRIED = "Somebody tries the address; nothing happened, and it is sent once."
