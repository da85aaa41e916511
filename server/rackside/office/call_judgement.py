"""What a call's page shows of its judgements: the one that counts, the phone's beside it, and all that were made."""

import json
from typing import Any

from rackside import host
from rackside.office.judgement_words import PHONE_AND_HERE, differences, history
from rackside.office.pages import NOT_JUDGED, trouble
from rackside.records import Database, comparing, judging, log
from rackside.records.log import ENTRIES
from rackside.reports import findings

Json = dict[str, Any]


def judgement_of(database: Database, call_id: str) -> Json:
    """Return what the page shows; a call the engine fails at still shows its log."""
    try:
        judged = judging.judged(database, call_id)
        phone = comparing.phone_of(database, call_id)
    except NOT_JUDGED as error:
        trouble.error("the engine failed", call=call_id, error=str(error))
        return {"result": None, "not_judged": str(error), "judgements": _all(database, call_id)}
    result = json.loads(judged.result)
    standing_out, quiet = findings.parted(findings.pairs(result))
    return {
        "result": result,
        "standing_out": standing_out,
        "quiet": quiet,
        "judgements": _all(database, call_id),
        "same_rules": judged.digest == host.digest(),
        "phone": phone,
        "phone_changes": _phone_changes(database, call_id, phone, result),
    }


def _all(database: Database, call_id: str) -> list[Json]:
    with database.reading() as connection:
        found = judging.all_of(connection, call_id)
    return history([{**one._asdict(), "result": json.loads(one.result)} for one in found])


def _phone_changes(database: Database, call_id: str, phone: Json | None, result: Json) -> list[str]:
    """Return in words what the server says otherwise than a phone that judged by other rules or entries."""
    if phone is None or phone["agrees"] is not None:
        return []
    with database.reading() as connection:
        told = log.documents(connection, ENTRIES.c.call_id == call_id, ENTRIES.c.kind == "judgement")
    try:
        return differences(told[-1]["body"]["result"], result, PHONE_AND_HERE) if told else []
    except (AttributeError, KeyError, TypeError):
        return ["what was sent as the phone's judgement has another form, so it can't be compared"]
