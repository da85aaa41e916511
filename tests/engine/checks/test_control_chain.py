"""The control string device by device. Rules: CHECKS.md, control_chain (hopscotch tracing)."""

import pytest

from tests.engine.electrical_readings import found, value

NAMES = ("fuse", "high pressure", "low pressure", "oil control", "module", "overload")


def chain(*volts, expected=None, **about):
    wanted = expected or ("closed",) * len(volts)
    contacts = [
        {"name": name, "volts": volt, "expected": position}
        for name, volt, position in zip(NAMES, volts, wanted, strict=False)
    ]
    return {"point": "control_chain", "contacts": contacts, "unit": "V", "state": "stopped", "called": True, **about}


SUPPLY = value("control_voltage", "120.0")


def string(*volts, more=(SUPPLY,), **about):
    return found("control_chain", chain(*volts, **about), *more)


def test_all_as_expected_passes():
    finding = string("119.9", "119.7", "119.5", "119.2", "119.0", "118.8")
    assert finding["verdict"] == "pass"
    assert {leg["verdict"] for leg in finding["legs"]} == {"pass"}


def test_the_first_device_with_volts_in_and_none_out_is_open():
    finding = string("119.9", "119.7", "0.4", "0.3", "0.3", "0.3")
    assert (finding["verdict"], finding["detail"]["device"]) == ("fail", "low pressure")
    assert [leg["verdict"] for leg in finding["legs"]] == ["pass", "pass", "fail"] + ["cannot_tell"] * 3


def test_half_the_volts_is_a_burnt_contact_not_an_open_one():
    # Handbook A7: 62 V across a closed 120 V contact.
    finding = string("119.9", "119.7", "57.7", "57.5")
    assert finding["verdict"] == "watch"
    assert finding["value"] == pytest.approx(100 * 62 / 120)
    assert "low-impedance meter" in finding["because"]


def test_an_open_control_fuse_is_found_at_the_first_device():
    assert string("0.2", "0.2", "0.2")["detail"]["device"] == "fuse"


def test_one_volt_digits_on_24_volts_pass_a_small_drop():
    assert string("24.0", "23.9", "23.8", more=(value("control_voltage", "24.0"),))["verdict"] == "pass"


def test_without_the_transformers_volts_the_plate_serves():
    # 115 V after the fuse on a 120 V plate is a soft supply, not a bad fuse.
    assert string("115.0", "114.8", "114.7", more=())["verdict"] == "pass"


def test_a_device_open_as_drawn_ends_the_string():
    positions = ("closed", "open", "closed")
    finding = string("119.9", "0.3", "0.2", expected=positions)
    assert finding["verdict"] == "cannot_tell"
    assert "low pressure" in finding["because"]
    assert string("119.9", "0.3", expected=("closed", "open"))["verdict"] == "pass"


def test_closed_where_drawn_open_is_watched():
    assert string("119.9", "119.7", "119.5", expected=("closed", "open", "closed"))["verdict"] == "watch"


def test_an_open_device_behind_one_wrongly_closed_is_still_found():
    finding = string("119.9", "119.7", "0.3", expected=("closed", "open", "closed"))
    assert (finding["verdict"], finding["detail"]["device"]) == ("fail", "low pressure")


def test_volts_that_come_back_are_another_feed():
    assert string("119.9", "60.0", "119.5")["verdict"] == "cannot_tell"


@pytest.mark.parametrize(
    ("across", "verdict", "device"),
    [
        (("0.1", "119.6", "0.1"), "fail", "high pressure"),
        (("0.1", "62.0", "0.1"), "watch", "high pressure"),
        (("0.1", "0.0", "0.1"), "cannot_tell", "fuse"),
        (("119.0", "119.6", "0.1"), "cannot_tell", "fuse"),
    ],
)
def test_read_across_each_device(across, verdict, device):
    finding = string(*across, method="across")
    assert (finding["verdict"], finding["detail"]["device"]) == (verdict, device)


def test_no_volts_across_proves_the_string_only_with_volts_at_the_coil():
    coil = value("coil_voltage", "118.0", called=True)
    assert string("0.1", "0.0", "0.1", method="across", more=(SUPPLY, coil))["verdict"] == "pass"


def test_not_called_and_unread_volts_are_not_judged():
    assert string("119.9", "0.0", called=False)["verdict"] == "cannot_tell"
    finding = string("119.9", "nan")
    assert finding["verdict"] == "cannot_tell"
    assert "high pressure" in finding["because"]


def test_without_any_control_volts_across_names_what_is_missing():
    finding = found("control_chain", chain("0.1", "119.6", method="across"), machine={})
    assert finding["missing"] == ["control_voltage"]
