"""Lines of parts, labour, travel and quotes with their totals. Pure; exact decimals, no accounting."""

from decimal import ROUND_HALF_UP, Decimal, InvalidOperation
from typing import Any

Json = dict[str, Any]
KINDS = {"part": "Parts", "labour": "Labour", "travel": "Travel", "quote": "Quotes"}
OFFERED = "quote"
# Beyond this a quantity or price is a slip of the thumb, and a total would lose its cents.
DIGITS = 9
# Currencies that have no hundredths.
WHOLE = ("CLP", "ISK", "JPY", "KRW", "PYG", "VND")


def priced(lines: list[Json], currency: str) -> Json:
    """Return the lines by kind, what was charged and what is offered in each currency, and how many have no price."""
    told = [_line(line, currency) for line in lines]
    return {
        "groups": [
            {"kind": kind, "title": title, "lines": [line for line in told if line["kind"] == kind]}
            for kind, title in KINDS.items()
            if any(line["kind"] == kind for line in told)
        ],
        "charged": _totals([line for line in told if line["kind"] != OFFERED]),
        "offered": _totals([line for line in told if line["kind"] == OFFERED]),
        "unpriced": sum(line["total"] is None for line in told),
    }


def spoken(amount: str | None, currency: str) -> str:
    """Return an amount with its currency, thousands parted."""
    return "no price" if amount is None else f"{Decimal(amount):,} {currency}"


def _line(line: Json, currency: str) -> Json:
    told = {name: line.get(name) for name in ("id", "kind", "what", "by", "at")}
    chosen = line.get("currency") or currency
    quantity, price = _decimal(line.get("quantity"), "1"), _decimal(line.get("price"))
    total = None if quantity is None or price is None else str(_rounded(quantity * price, chosen))
    asked = {"quantity": _as_written(line.get("quantity"), "1"), "price": _as_written(line.get("price"), None)}
    return told | asked | {"currency": chosen, "total": total}


def _totals(lines: list[Json]) -> list[Json]:
    currencies = dict.fromkeys(line["currency"] for line in lines if line["total"] is not None)
    return [
        {
            "currency": currency,
            "total": str(sum((Decimal(line["total"]) for line in lines if _counts(line, currency)), Decimal())),
        }
        for currency in currencies
    ]


def _counts(line: Json, currency: str) -> bool:
    return line["currency"] == currency and line["total"] is not None


def _as_written(value: Any, absent: str | None) -> str | None:
    return absent if value is None else str(value)


def _decimal(value: Any, absent: str | None = None) -> Decimal | None:
    text = _as_written(value, absent)
    if text is None:
        return None
    try:
        number = Decimal(text.strip())
    except InvalidOperation:
        return None
    return number if number.is_finite() and number.adjusted() < DIGITS else None


def _rounded(amount: Decimal, currency: str) -> Decimal:
    return amount.quantize(Decimal("1") if currency in WHOLE else Decimal("0.01"), ROUND_HALF_UP)
