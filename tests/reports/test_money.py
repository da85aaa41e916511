"""Totals of parts, labour, travel and quotes: exact, by currency, and nothing without a price in them."""

import pytest

from rackside.reports.money import priced, spoken


def line(kind: str, quantity: object, price: object, currency: str | None = None) -> dict[str, object]:
    return {"kind": kind, "what": f"a {kind}", "quantity": quantity, "price": price, "currency": currency}


def test_a_quote_is_offered_and_never_charged() -> None:
    told = priced([line("part", "2", "6.40"), line("labour", "4.5", "112.00"), line("quote", "1", "1860")], "USD")
    assert [group["title"] for group in told["groups"]] == ["Parts", "Labour", "Quotes"]
    assert told["charged"] == [{"currency": "USD", "total": "516.80"}]
    assert told["offered"] == [{"currency": "USD", "total": "1860.00"}]


def test_tenths_add_up_exactly_and_halves_round_away_from_zero() -> None:
    told = priced([line("part", "1", "0.10") for _ in range(10)] + [line("part", "0.5", "0.25")], "USD")
    assert told["charged"] == [{"currency": "USD", "total": "1.13"}]


def test_each_currency_has_its_own_total() -> None:
    told = priced([line("part", "3", "10", "EUR"), line("part", "3", "10"), line("travel", "1", "333.4", "JPY")], "USD")
    assert told["charged"] == [
        {"currency": "EUR", "total": "30.00"},
        {"currency": "USD", "total": "30.00"},
        {"currency": "JPY", "total": "333"},
    ]


@pytest.mark.parametrize("price", [None, "to be agreed", "NaN", "1e999999999"])
def test_a_line_without_a_price_is_told_and_in_no_total(price: object) -> None:
    told = priced([line("part", "1", price), line("part", "1", "5")], "USD")
    assert told["unpriced"] == 1
    assert told["charged"] == [{"currency": "USD", "total": "5.00"}]


def test_a_credit_counts_against_the_total() -> None:
    assert priced([line("part", "1", "84"), line("part", "-1", "20")], "USD")["charged"][0]["total"] == "64.00"


def test_amounts_are_spoken_with_their_currency() -> None:
    assert spoken("1860.00", "USD") == "1,860.00 USD"
    assert spoken(None, "USD") == "no price"
