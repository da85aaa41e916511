"""Ten thousand webhook messages to a receiver that fails half the time."""

import time

from tests.server.conftest import quick_passwords as quick_passwords
from tests.server.house import House
from tests.server.test_deliveries import busy_house as busy_house
from tests.server.test_deliveries import deliver

COUNT = 10_000


def test_ten_thousand_messages_to_a_failing_receiver_and_none_is_lost(busy_house: House) -> None:
    begun = time.monotonic()
    deliver(busy_house, COUNT, within=600)
    print(f"\n{COUNT} messages delivered to a receiver that fails half the time in {time.monotonic() - begun:.0f} s")
