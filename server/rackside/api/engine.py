"""The engine for everybody: its vocabulary, and a judgement that stores nothing."""

import json
from functools import cache
from typing import Annotated, Any

from fastapi import APIRouter, Query, Response

from rackside import __version__, host
from rackside.api.bodies import described
from rackside.api.context import Analyst, Base, Text
from rackside.api.list_forms import Health
from rackside.api.refusals import refuses
from rackside.api.result_form import Result
from rackside.api.words import words
from rackside.records import Refused, log
from rackside.records.migrations import newest

router = APIRouter(tags=["engine"])
VOCABULARY: dict[int | str, dict[str, Any]] = {200: {"content": {"application/json": {"schema": {"type": "object"}}}}}
TOLD_IN = " or ".join(host.languages())
Language = Annotated[str, Query(pattern="^[a-z]{2}$", description=f"Of the sentences: {TOLD_IN}; any other gives en")]


@cache
def _vocabulary(language: str) -> str:
    return json.dumps(words(language))


@router.get(
    "/vocabulary",
    responses=VOCABULARY,
    summary="Every word that is allowed",
    description="Points, units, states, signs, events, actions, complaints, causes, checks with limits and sources, "
    "gates, refrigerants, clocks, error codes, entry kinds. Needs no key.",
)
def vocabulary(language: Language = "en") -> Response:
    return Response(_vocabulary(language), media_type="application/json")


@router.post(
    "/analyse",
    response_model=Result,
    responses=refuses("invalid_case", "engine_failed"),
    summary="Judge a case",
    description="A case in, its result out. Nothing is stored.",
    openapi_extra=described("Case"),
)
def analyse(case: Text, caller: Analyst, language: Language = "en") -> Response:
    try:
        return Response(host.judge_text(case, language), media_type="application/json")
    except host.InvalidCase as invalid:
        if _is_not_json(case):
            raise Refused("not_json", "The body is not JSON.") from invalid
        raise


def _is_not_json(text: str) -> bool:
    try:
        json.loads(text)
    except (ValueError, RecursionError):
        return True
    return False


@router.get("/health", response_model=Health, summary="Alive, and which versions", description="Needs no key.")
def health(database: Base) -> dict[str, Any]:
    with database.reading() as connection:
        epoch = log.state(connection).epoch
    return {"status": "ok", "version": __version__, "schema": newest(), "epoch": epoch, "engine": host.digest()}
