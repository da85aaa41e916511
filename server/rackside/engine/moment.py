"""RFC 3339 times without a calendar library: text to seconds and back."""

_CUMULATIVE = (0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334)


def seconds(text: str) -> "float | None":
    """Return seconds since 1970-01-01T00:00Z of an RFC 3339 time with offset, None when it is not one."""
    if not isinstance(text, str) or len(text) < 20:
        return None
    fields = (text[0:4], text[5:7], text[8:10], text[11:13], text[14:16], text[17:19])
    if text[4] + text[7] + text[13] + text[16] != "--::" or text[10] not in "Tt ":
        return None
    if not _digits("".join(fields)):
        return None
    year, month, day, hour, minute, second = [int(field) for field in fields]
    if not (1 <= month <= 12 and 1 <= day <= _month_days(year, month)):
        return None
    if hour > 23 or minute > 59 or second > 60:
        return None
    fraction, zone = _split_fraction(text[19:])
    offset = offset_seconds(zone)
    if offset is None or fraction is None:
        return None
    return _days(year, month, day) * 86400.0 + hour * 3600 + minute * 60 + second + fraction - offset


def _digits(text: str) -> bool:
    for letter in text:
        if letter not in "0123456789":
            return False
    return text != ""


def _split_fraction(tail: str) -> "tuple[float | None, str]":
    if not tail.startswith("."):
        return 0.0, tail
    end = 1
    while end < len(tail) and tail[end] in "0123456789":
        end += 1
    if end == 1 or end > 10:
        return None, ""
    return float("0" + tail[:end]), tail[end:]


def offset_seconds(zone: str) -> "int | None":
    """Return the offset [s] of `Z` or `+hh:mm`, None when it is neither."""
    if zone in ("Z", "z"):
        return 0
    if len(zone) != 6 or zone[0] not in "+-" or zone[3] != ":" or not _digits(zone[1:3] + zone[4:6]):
        return None
    size = int(zone[1:3]) * 3600 + int(zone[4:6]) * 60
    if size >= 86400:
        return None
    return -size if zone[0] == "-" else size


def zone_of(text: str) -> str:
    """Return the offset a valid RFC 3339 time was written with."""
    return "+00:00" if text[-1] in "Zz" else text[-6:]


def written(moment: float, zone: str) -> str:
    """Return a time [s since 1970 UTC] as RFC 3339 in the given offset, to the whole second."""
    offset = offset_seconds(zone)
    local = int(moment) + (offset or 0)
    days, rest = local // 86400, local % 86400
    year, month, day = _date(days)
    clock = _two(rest // 3600) + ":" + _two(rest % 3600 // 60) + ":" + _two(rest % 60)
    return str(year) + "-" + _two(month) + "-" + _two(day) + "T" + clock + zone


def _two(number: int) -> str:
    return ("0" if number < 10 else "") + str(number)


def _leap(year: int) -> bool:
    return year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)


def _month_days(year: int, month: int) -> int:
    if month == 2:
        return 29 if _leap(year) else 28
    return 30 if month in (4, 6, 9, 11) else 31


def _days(year: int, month: int, day: int) -> int:
    before = year - 1
    leaps = before // 4 - before // 100 + before // 400
    in_year = _CUMULATIVE[month - 1] + day - 1 + (1 if month > 2 and _leap(year) else 0)
    return before * 365 + leaps + in_year - 719162


def _date(days: int) -> "tuple[int, int, int]":
    year = 1970 + days // 366
    while _days(year + 1, 1, 1) <= days:
        year += 1
    month = 12
    while _days(year, month, 1) > days:
        month -= 1
    return year, month, days - _days(year, month, 1) + 1
