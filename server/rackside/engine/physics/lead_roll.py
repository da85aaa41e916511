"""Does an uneven current stay with the supply line or move with the motor lead?

All three motor leads are moved the same number of places (roll 1: T1 to L2, T2 to L3, T3 to L1), so the rotation stays.
Each position's amps are added up by line and by motor lead; the sums that lie further apart are those that it follows.
Source: EASA and maintenance press, three-position current table (row and column sums); common practice.
"""

SUPPLY = "supply"
MOTOR = "motor"
NEITHER = "neither"
LEGS = 3


class LeadRoll:
    """The amps of two or three positions of the leads.

    positions: (roll, [L1, L2, L3] amps), one per roll, two at least. line_sums and motor_sums [A] by L1-L3 and T1-T3.
    sensitivities: of how much further apart the line sums are, against each amp of each position in turn.
    """

    def __init__(self, positions: "list[tuple[int, list[float]]]") -> None:
        self.positions = positions
        self.line_sums = [0.0] * LEGS
        self.motor_sums = [0.0] * LEGS
        for roll, amps in positions:
            for line in range(LEGS):
                self.line_sums[line] += amps[line]
                self.motor_sums[motor_lead(line, roll)] += amps[line]
        self.lead = _spread(self.line_sums) - _spread(self.motor_sums)

    def sensitivities(self) -> "list[list[float]]":
        """Return d(lead) / d(amps), by position and line."""
        found = []
        for roll, _ in self.positions:
            row = []
            for line in range(LEGS):
                motor = motor_lead(line, roll)
                row.append(_pull(self.line_sums, line) - _pull(self.motor_sums, motor))
            found.append(row)
        return found

    def follows(self, uncertainty: float) -> str:
        """Return what the unevenness follows, given the expanded uncertainty of the lead [A]."""
        if abs(self.lead) <= uncertainty:
            return NEITHER
        return SUPPLY if self.lead > 0 else MOTOR


def motor_lead(line: int, roll: int) -> int:
    """Return which motor lead (0 for T1) stands on a line (0 for L1) after the leads were rolled."""
    return (line - roll) % LEGS


def _spread(sums: "list[float]") -> float:
    return max(sums) - min(sums)


def _pull(sums: "list[float]", index: int) -> float:
    """Return +1 for the highest of the sums, -1 for the lowest, else 0."""
    if index == sums.index(max(sums)):
        return 1.0
    return -1.0 if index == sums.index(min(sums)) else 0.0
