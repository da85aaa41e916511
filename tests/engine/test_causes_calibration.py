"""Probabilities mean what they say: on cases from the model they match frequencies; on bent models the leader holds."""

import random
import statistics

import pytest

from tests.engine.simulated import COMPLAINTS, SHOWINGS, World, observed, readings_needed, share_right, weighed

CASES = 5000
BINS = ((0.0, 0.02), (0.02, 0.1), (0.1, 0.3), (0.3, 0.6), (0.6, 0.9), (0.9, 1.01))


def test_probabilities_match_frequencies_within_three_percent() -> None:
    rng = random.Random(20261014)
    world = World(rng)
    told = [[0.0, 0, 0] for _ in BINS]
    for _ in range(CASES):
        complaint = rng.choice(COMPLAINTS)
        cause, outcomes = world.case(complaint)
        shown = rng.sample(SHOWINGS, rng.randint(0, 80))
        weighing = weighed(complaint, observed(shown, outcomes))
        for name, probability in zip(weighing.causes, weighing.probabilities, strict=True):
            place = next(i for i, (low, high) in enumerate(BINS) if low <= probability < high)
            told[place][0] += probability
            told[place][1] += 1
            told[place][2] += name == cause
    for (low, high), (total, count, right) in zip(BINS, told, strict=True):
        assert count > 500, (low, high)
        assert right / count == pytest.approx(total / count, abs=0.03), (low, high, count)


def test_ten_readings_put_the_true_cause_first_though_the_model_is_bent() -> None:
    """Every chance is bent by a normal error of 0.5 in log-odds; signs first, then ten readings as the engine asks."""
    assert share_right(cases=120, spread=0.5, seed=21) >= 0.85


def test_the_choice_needs_fewer_readings_than_a_fixed_checklist() -> None:
    by_choice, by_list = readings_needed(cases=60, enough=0.9, seed=9)
    assert statistics.median(by_choice) <= 0.5 * statistics.median(by_list)
    assert statistics.mean(by_choice) < 0.8 * statistics.mean(by_list)
