"""`rackside serve` with one promise broken on purpose: python -m tests.faults.mutant_server MUTANT URL serve …"""

import sys

from rackside.cli import app
from rackside.records import Database
from tests.faults import mutants


def main(name: str, url: str, *arguments: str) -> None:
    broken = {mutant.__name__: mutant for mutant in mutants.MUTANTS}[name]
    database = Database(url)
    database.migrate()
    with broken(database):
        app(list(arguments))


if __name__ == "__main__":
    main(*sys.argv[1:])
