"""What a part of a written date means, a stretch between two EDTF points, and its EDTF text."""

from __future__ import annotations

from dataclasses import dataclass, replace

from catalogue.values.date_policy import DatePolicy
from catalogue.values.days import day_after, day_before
from catalogue.values.edtf_forms import parse
from catalogue.values.edtf_points import Point, first_day, last_day


@dataclass(frozen=True, slots=True)
class Stretch:
    """From one EDTF point to another (the same one for a single date), each with its mark.

    An end that is open is "". Marks are "", "?", "~" or "%".
    """

    start: str
    end: str
    start_mark: str = ""
    end_mark: str = ""

    def marked(self, mark: str) -> Stretch:
        """The same stretch, both ends in that doubt as well."""
        return replace(
            self,
            start_mark=joined_marks(self.start_mark, mark),
            end_mark=joined_marks(self.end_mark, mark),
        )


@dataclass(frozen=True, slots=True)
class Meaning:
    """One reading of a text: a stretch, or several joined by "or" or "and"."""

    members: tuple[Stretch, ...]
    joined: str = ""

    def marked(self, mark: str) -> Meaning:
        """The same reading, every member in that doubt as well."""
        return replace(self, members=tuple(member.marked(mark) for member in self.members))


def single(point: str) -> Stretch:
    """The stretch of one EDTF point."""
    return Stretch(point, point)


def joined_marks(one: str, other: str) -> str:
    """Both doubts at once: approximate and uncertain make "%"."""
    both = set(one + other)
    return "%" if "%" in both or len(both) == 2 else "".join(both)


def year_text(year: int) -> str:
    """The year as EDTF writes it, four digits and a sign before the year 0."""
    return f"{year:04d}" if year >= 0 else f"{year:05d}"


def years_from(start: int, years: tuple[int, int]) -> Stretch:
    """The stretch between two years counted from a start, both included."""
    return Stretch(year_text(start + years[0]), year_text(start + years[1]))


def lowest(stretch: Stretch, policy: DatePolicy) -> str:
    """The first year, month or day of the stretch, as level 0 writes it; "" where open."""
    return _plain_end(stretch.start, policy, last=False)


def highest(stretch: Stretch, policy: DatePolicy) -> str:
    """The last year, month or day of the stretch, as level 0 writes it; "" where open."""
    return _plain_end(stretch.end, policy, last=True)


def _plain_end(point: str, policy: DatePolicy, last: bool) -> str:
    """The point without unspecified digits or seasons, at the same precision."""
    taken = parse(point) if point else None
    if not isinstance(taken, Point):
        return point
    if not taken.season and "X" not in point:
        return point
    year, month, _ = last_day(taken, policy) if last else first_day(taken, policy)
    return f"{year_text(year)}-{month:02d}" if taken.month else year_text(year)


def before(point: str) -> str:
    """The year, month or day before a level 0 point."""
    return _neighbour(point, -1)


def after(point: str) -> str:
    """The year, month or day after a level 0 point."""
    return _neighbour(point, 1)


def _neighbour(point: str, step: int) -> str:
    year, *rest = point.lstrip("-").split("-")
    number = -int(year) if point.startswith("-") else int(year)
    if not rest:
        return year_text(number + step)
    if len(rest) == 1:
        years, month = divmod(number * 12 + int(rest[0]) - 1 + step, 12)
        return f"{year_text(years)}-{month + 1:02d}"
    day = (number, int(rest[0]), int(rest[1]))
    moved = day_before(day) if step < 0 else day_after(day)
    return f"{year_text(moved[0])}-{moved[1]:02d}-{moved[2]:02d}"


def edtf_of(meaning: Meaning, policy: DatePolicy) -> str:
    """The reading as EDTF: level 1, or a level 2 set for alternatives."""
    if not meaning.joined:
        return _interval(meaning.members[0], policy)
    members = [_member(member, policy) for member in meaning.members]
    if any(".." in member and member[-1] in "?~%" for member in members):
        # A run inside a set cannot be marked; the envelope keeps the doubt and the bounds.
        return _interval(_envelope(meaning.members, policy), policy)
    opening, closing = "[]" if meaning.joined == "or" else "{}"
    return f"{opening}{','.join(members)}{closing}"


def _interval(stretch: Stretch, policy: DatePolicy) -> str:
    """One date or an interval; ends of an interval are written without unspecified digits."""
    if stretch.start == stretch.end and not (_is_season(stretch.start) and stretch.start_mark):
        return stretch.start + stretch.start_mark
    low = _end(stretch.start, lowest(stretch, policy), stretch.start_mark)
    high = _end(stretch.end, highest(stretch, policy), stretch.end_mark)
    return f"{low or '..'}/{high or '..'}"


def _end(point: str, plain: str, mark: str) -> str:
    """Seasons stay seasons in an interval unless they are marked, which few readers bear."""
    if not point:
        return ""
    return (point if _is_season(point) and not mark else plain) + mark


def _is_season(point: str) -> bool:
    return (
        point[-3:-2] == "-"
        and point[-2:].isdigit()
        and 21 <= int(point[-2:]) <= 41
        and len(point.lstrip("-")) == 7
    )


def _member(stretch: Stretch, policy: DatePolicy) -> str:
    if stretch.start == stretch.end and not _is_season(stretch.start):
        return stretch.start + stretch.start_mark
    return f"{lowest(stretch, policy)}..{highest(stretch, policy)}{stretch.end_mark}"


def _envelope(members: tuple[Stretch, ...], policy: DatePolicy) -> Stretch:
    return Stretch(
        min(lowest(member, policy) for member in members),
        max(highest(member, policy) for member in members),
        joined_marks(members[0].start_mark, members[-1].start_mark),
        joined_marks(members[0].end_mark, members[-1].end_mark),
    )
