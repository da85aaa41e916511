"""How much chance, from which seed, and how a run is replayed."""

import os
import random
from typing import Any, NamedTuple

from hypothesis import HealthCheck, Phase, seed, settings
from hypothesis.stateful import run_state_machine_as_test

from rackside.records import Database
from tests.faults.model import HouseModel

STEPS = 50


THOROUGH = os.environ.get("RACKSIDE_FAULTS") == "thorough"
USUAL_SEED = 20261014


def chosen_seed() -> int:
    """Return the seed of this run: the usual one, another each time when thorough; RACKSIDE_SEED replays."""
    usual = random.SystemRandom().randrange(10**6) if THOROUGH else USUAL_SEED
    number = int(os.environ.get("RACKSIDE_SEED") or usual)
    print(f"\nRACKSIDE_SEED={number}")
    return number


def examples(quick: int, thorough: int) -> int:
    return thorough if THOROUGH else quick


class Done(NamedTuple):
    runs: int
    steps: int
    entries: int

    def __str__(self) -> str:
        return f"{self.runs} runs, {self.steps} steps, {self.entries} entries, none lost, none doubled"


def run_model(database: Database, runs: int, **changed: Any) -> Done:
    """Run the model; a failure prints the steps that led to it."""
    made = {"database": database, "steps": 0, "entries": 0, **changed}
    model = seed(chosen_seed())(type("House", (HouseModel,), made))
    phases = [Phase.generate]
    chosen = settings(
        max_examples=runs,
        stateful_step_count=STEPS,
        deadline=None,
        database=None,
        phases=phases,
        suppress_health_check=list(HealthCheck),
        report_multiple_bugs=False,
    )
    run_state_machine_as_test(model, settings=chosen)
    return Done(runs, model.steps, model.entries)
