"""Two things at once in a household: two tabs of one phone, two phones at one server."""

import threading

from tests.faults.household import Household
from tests.faults.inside import SlowDatabase
from tests.faults.replica import Replica

# Seconds in which a push comes to its end, unless it waits for another.
OVERTAKEN_WITHIN = 0.15


def two_tabs(house: Household, phone: Replica, full: bool) -> None:
    """A slower tab answers last, with an old page and the answer to a batch sent before; `full`: room was made."""
    line, before, batch = house.line(phone), phone.store, phone.waiting()
    page = line.pull(before.cursor, before.scope, before.epoch)
    answer = line.push(phone.device, before.epoch, batch)
    house.exchange(phone)
    if full:
        phone.make_room()
    if "items" in page:
        phone.keep_page(page, before)
    if "results" in answer and phone.store.epoch == answer["epoch"]:
        phone.settle(answer)


def overtake(house: Household, first: Replica, second: Replica, third: Replica) -> None:
    """While one phone's push hangs in the server, another's arrives, and a third phone reads."""
    house.keep_some(first)
    house.keep_some(second)
    hanging, batch, line = SlowDatabase(house.database), first.waiting(), house.line(first)
    pushing = threading.Thread(target=lambda: line.push_to(hanging, first.store.epoch, batch))
    pushing.start()
    while pushing.is_alive() and not hanging.reached.wait(0.01):
        pass
    overtaking = threading.Thread(target=house.exchange, args=(second,))
    overtaking.start()
    overtaking.join(OVERTAKEN_WITHIN)
    _read_only(house, third)
    hanging.go_on.set()
    pushing.join()
    overtaking.join()


def _read_only(house: Household, phone: Replica) -> None:
    asked = phone.store
    page = house.line(phone).pull(asked.cursor, asked.scope, asked.epoch)
    if "items" in page:
        phone.keep_page(page, asked)
