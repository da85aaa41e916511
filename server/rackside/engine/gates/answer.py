"""The four gates of a call."""

from ..kinds import Any, Json
from .condemn import condemn_blocks, condemn_gate_needs, condemned_for
from .gate import Gate, overrides_of
from .known import Known
from .reset import insulation_blocks, reset_needs
from .restart import in_vacuum, restart_blocks, restart_needs
from .service import service_blocks, service_needs
from .wrong_condemnations import wrong_condemnations


class Gates:
    """The gates, and the cause a condemnation would name."""

    def __init__(self, known: Known, causes: Any) -> None:
        overrides = known.call.overrides
        ground = insulation_blocks(known)
        barred = bool(ground) or known.call.sign("terminal_leak") or in_vacuum(known)
        self.known = known
        self.cause = condemned_for(known, causes)
        self.reset = Gate("reset", reset_needs(known), ground, overrides_of(overrides, ("reset",)), barred)
        needs, blocks = reset_needs(known) + restart_needs(known), ground + restart_blocks(known)
        self.restart = Gate("restart", needs, blocks, overrides_of(overrides, ("reset", "restart")), barred)
        given = overrides_of(overrides, ("return_to_service",))
        self.service = Gate("return_to_service", service_needs(known), service_blocks(known), given, barred)
        needs, blocks = condemn_gate_needs(known, self.cause), condemn_blocks(known, causes, self.cause)
        self.condemn = Gate("condemn", needs, blocks, overrides_of(overrides, ("condemn",)), False)

    def as_json(self, language: str) -> Json:
        told: Json = {
            gate.name: gate.as_json(language) for gate in (self.reset, self.restart, self.service, self.condemn)
        }
        told["condemn"]["for_cause"] = self.cause
        told["condemn"]["warnings"] = wrong_condemnations(self.known, language)
        return told
