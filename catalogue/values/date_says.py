"""An EDTF date said in words, as it is shown back to the person who wrote it."""

from __future__ import annotations

from catalogue.values.edtf_points import DateSet, Expression, Interval, Point, months_of

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)

_ORDINALS = ("first", "second", "third", "fourth")

_SEASONS = {
    21: "spring {}",
    22: "summer {}",
    23: "autumn {}",
    24: "winter {}",
    25: "northern spring {}",
    26: "northern summer {}",
    27: "northern autumn {}",
    28: "northern winter {}",
    29: "southern spring {}",
    30: "southern summer {}",
    31: "southern autumn {}",
    32: "southern winter {}",
    **{33 + n: f"{word} quarter of {{}}" for n, word in enumerate(_ORDINALS)},
    **{37 + n: f"{word} third of {{}}" for n, word in enumerate(_ORDINALS[:3])},
    **{40 + n: f"{word} half of {{}}" for n, word in enumerate(_ORDINALS[:2])},
}

_PREFIXES = {"": "", "~": "about ", "?": "possibly ", "%": "possibly about "}
_DOUBTS = {"~": "approximate", "?": "uncertain", "%": "uncertain and approximate"}


def says(expression: Expression) -> str:
    """The date in words: 193X gives "the 1930s", ../1939 gives "1939 or earlier"."""
    if isinstance(expression, Point):
        return _point(expression)
    if isinstance(expression, Interval):
        return _interval(expression)
    return _set(expression)


def ordinal(number: int) -> str:
    """The number with its ending: 1st, 2nd, 3rd, 11th, 19th."""
    if number % 100 in (11, 12, 13):
        return f"{number}th"
    return f"{number}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th') }"


def _interval(interval: Interval) -> str:
    start, end = interval.start, interval.end
    if isinstance(end, Point) and isinstance(start, Point):
        # "Possibly 1865 to 1870" would doubt both; "from possibly 1865 to 1870" doubts the first.
        apart = any(start.marks) and start.marks[0] != end.marks[0]
        return f"{'from ' if apart else ''}{_beginning(start, end)} to {_point(end)}"
    if isinstance(end, Point):
        words = _point(end)
        return f"{words} or earlier" if start == ".." else f"unknown beginning to {words}"
    words = _point(start) if isinstance(start, Point) else "unknown"
    return f"{words} or later" if end == ".." else f"{words} to unknown end"


def _beginning(start: Point, end: Point) -> str:
    """The start in words, leaving out the month and year that it shares with the end."""
    words = _point(start)
    if start.marks != end.marks or start.season or end.season or any(start.marks):
        return words
    if start.year == end.year and start.month and end.month and "X" not in start.text + end.text:
        words = words.removesuffix(f" {_year(start)}")
        if start.day and end.day and start.month == end.month:
            words = words.removesuffix(f" {MONTHS[int(start.month) - 1]}")
    return words


def _set(dates: DateSet) -> str:
    *others, last = [says(member) for member in dates.members]
    if not others:
        return f"all of {last}" if dates.every else last
    marks = [m.marks[0] if isinstance(m, Point) else "" for m in dates.members]
    leading = ""
    if marks[0] and len(set(marks)) > 1:  # a doubt in front would be read as doubting all
        leading = "each of " if dates.every else "either "
    return f"{leading}{', '.join(others)} {'and' if dates.every else 'or'} {last}"


def _point(point: Point) -> str:
    present = [m for m, part in zip(point.marks, _parts(point), strict=True) if part]
    if len(set(present)) == 1:
        return _PREFIXES[present[0]] + _bare(point)
    return f"{_bare(point)} ({', '.join(_doubted(point))})"


def _parts(point: Point) -> tuple[str | None, str | None, str | None]:
    return point.year, point.month, point.day


def _doubted(point: Point) -> list[str]:
    names = ("year", "season" if point.season else "month", "day")
    return [
        f"{name} {_DOUBTS[mark]}" for name, mark in zip(names, point.marks, strict=True) if mark
    ]


def _bare(point: Point) -> str:
    year = _year(point)
    if point.month is None:
        return year
    if point.season:
        return _SEASONS[point.season].format(year)
    if "X" not in point.month + (point.day or "") + point.year:
        return f"{_day(point)}{MONTHS[int(point.month) - 1]} {year}"
    return _unspecified(point, year)


def _day(point: Point) -> str:
    return f"{int(point.day)} " if point.day else ""


def _unspecified(point: Point, year: str) -> str:
    """A date with some digits unknown: some day of April 1985, some month of 2004."""
    some_year = "X" in point.year
    where = f"some year of {year}" if some_year and not point.unknown else year
    month = _some_month(point)
    if point.day is None:
        return f"{month} of {where}" if some_year or "X" in (point.month or "") else where
    if point.day == "XX":
        day = "some day" if point.month == "XX" else f"some day of {month}"
        joint = " of " if some_year or point.month == "XX" else " "
        return f"{day}{joint}{where}"
    number = int(point.day) if point.day.isdigit() else f"some day {point.day}"
    return f"{number} {month} of {where}" if point.month != "XX" else f"{number} {month}, {where}"


def _some_month(point: Point) -> str:
    months = months_of(point)
    if len(months) == 12:
        return "some month"
    names = [MONTHS[month - 1] for month in months]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"


def _year(point: Point) -> str:
    low, high = point.years
    digits = point.year.lstrip("Y-")
    if point.unknown:
        return "an unknown year"
    if point.figures:
        value = _number(int(point.year.lstrip("Y").partition("E")[0]) * _scale(point.year))
        return f"{value}, some year of {_number(low)} to {_number(high)}"
    if low == high:
        return _number(low)
    if low >= 0 and "X" not in digits[:3]:
        # "The 1800s" would be read as a century.
        return f"the {low}s" if low % 100 else f"the decade {low} to {high}"
    if low >= 0 and "X" not in digits[:2] and digits.endswith("XX"):
        return f"the {ordinal(low // 100 + 1)} century"
    if digits.lstrip("0123456789").strip("X") == "":
        return f"{_number(low)} to {_number(high)}"
    return f"a year written {point.year}"


def _scale(year: str) -> int:
    return int(10 ** int(year.partition("E")[2] or 0))


def _number(year: int) -> str:
    """The year as said: 1 BC is the year 0 of ISO 8601."""
    if year <= 0:
        return f"{1 - year} BC"
    return f"AD {year}" if year < 1000 else str(year)
