"""What looks wrong about a reading, before a verdict misleads."""

from .kinds import Json


class Suspicion:
    """What looks wrong: a sentence key with its values; impossible ones are not judged."""

    def __init__(self, key: str, values: Json, impossible: bool) -> None:
        self.key = "suspicion." + key
        self.values = values
        self.impossible = impossible
