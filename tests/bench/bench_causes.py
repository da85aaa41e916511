"""The large runs behind the figures in server/docs/causes.md."""

import statistics

from tests.engine.simulated import readings_needed, share_right


def test_leader_after_ten_readings() -> None:
    exact, bent = share_right(1000, 0.0, 31), share_right(1000, 0.5, 32)
    print(f"\ntrue cause first after signs and ten readings: model {exact:.1%}, bent model {bent:.1%}")
    assert bent >= 0.85


def test_readings_to_ninety_percent() -> None:
    by_choice, by_list = readings_needed(600, 0.9, 33)
    for name, counts in (("chosen", by_choice), ("checklist", by_list)):
        within = sum(count <= 10 for count in counts) / len(counts)
        print(f"\n{name}: median {statistics.median(counts)}, mean {statistics.mean(counts):.1f}, in ten {within:.0%}")
    assert statistics.mean(by_choice) < statistics.mean(by_list)
