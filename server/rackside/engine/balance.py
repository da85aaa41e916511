"""The balance of three like quantities: volts, amps or ohms of one reading."""

from .kinds import Json
from .leg import leg_json
from .limits import CANNOT_TELL, FAIL, PASS, WATCH
from .physics.three_phase import mean, tied_legs, unbalance, unbalance_sensitivities
from .reading import Quantity
from .uncertainty import expanded


class Balance:
    """Largest deviation from the mean of some legs.

    percent: the unbalance [%]. uncertainty: expanded, k = 2 [%]. mean: base unit. worst_leg, lowest_leg: their names.
    step_percent: the coarsest step of the meter as a share of the mean [%].
    """

    def __init__(self, legs: "list[tuple[str, Quantity]]") -> None:
        self.legs = legs
        values = [quantity.value for _, quantity in legs]
        self.mean = mean(values)
        self.percent, worst = unbalance(values)
        self.worst_leg = legs[worst][0]
        self.lowest_leg = legs[values.index(min(values))][0]
        self.step_percent = 100.0 * max([quantity.step for _, quantity in legs]) / self.mean
        self.uncertainty = 0.0
        for tied in tied_legs(values):
            sensitivities = unbalance_sensitivities(values, tied)
            parts = [(sensitivities[i], values[i], legs[i][1].doubt) for i in range(len(legs))]
            self.uncertainty = max(self.uncertainty, expanded(parts))

    def deviation(self, quantity: Quantity) -> float:
        """Return how far one leg stands from the mean [%], with its sign."""
        return 100.0 * (quantity.value - self.mean) / self.mean

    def legs_json(self, limits: "list[Json]") -> "list[Json]":
        """Return the legs with value as read, deviation, and what that deviation alone would get."""
        told = []
        for leg, quantity in self.legs:
            deviation = self.deviation(quantity)
            told.append(leg_json(leg, quantity, _leg_verdict(abs(deviation), self.uncertainty, limits), deviation))
        return told


def balance(legs: "list[tuple[str, Quantity]]") -> "Balance | None":
    """Return the balance of legs, None when there is no mean to depart from or a leg is only a bound."""
    for _, quantity in legs:
        if quantity.bound:
            return None
    if not legs or mean([quantity.value for _, quantity in legs]) <= 0:
        return None
    return Balance(legs)


def _leg_verdict(deviation: float, uncertainty: float, limits: "list[Json]") -> str:
    edges = {limit["verdict"]: limit["above"] for limit in limits if "above" in limit}
    watch = edges.get(WATCH, edges.get(FAIL))
    fail = edges.get(FAIL)
    if watch is None or deviation + uncertainty <= watch:
        return PASS
    if fail is None or deviation + uncertainty <= fail:
        return WATCH
    return FAIL if deviation - uncertainty > fail else CANNOT_TELL
