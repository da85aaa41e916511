"""The invented people; whoever runs the demo creates them before loading."""

from typing import NamedTuple


class Person(NamedTuple):
    """Name, role at the server, and the password printed for the demo's visitor."""

    name: str
    role: str
    password: str


OKAFOR = Person("T. Okafor", "technician", "cold-iron-44")
LINDQVIST = Person("R. Lindqvist", "technician", "brass-gauge-71")
CASTELLANOS = Person("M. Castellanos", "office", "quiet-ledger-58")
PEOPLE = (OKAFOR, LINDQVIST, CASTELLANOS)
