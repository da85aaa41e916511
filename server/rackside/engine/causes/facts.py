"""All facts of the model."""

from . import facts_motor, facts_oil, facts_power, facts_rack, facts_system
from .model import Fact

FACTS: "tuple[Fact, ...]" = (
    facts_power.FACTS + facts_motor.FACTS + facts_oil.FACTS + facts_system.FACTS + facts_rack.FACTS
)
