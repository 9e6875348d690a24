"""The time of a talk: what its items take together, and what the clock says at each."""

from __future__ import annotations

import re
from dataclasses import dataclass

from catalogue.collection.records import Talk

_DAY = 24 * 60
_TIME = re.compile(r"(\d{1,2})(?:[:.](\d{2}))?\s*(am|pm|a\.m\.|p\.m\.)?", re.IGNORECASE)


class TimeOfDayError(ValueError):
    """What was written is not a time of day; the message says what is."""


def read_time(written: str) -> str:
    """Return a time of day as HH:MM, from "14:30", "2:30 pm" or "2 pm". Raises TimeOfDayError.

    Without am or pm it is read by the 24-hour clock, and then needs its minutes.
    """
    found = _TIME.fullmatch(written.strip())
    hour, minute = (int(found[1]), int(found[2] or 0)) if found else (99, 99)
    half = (found[3] or "").casefold().replace(".", "") if found else ""
    if found and half and 1 <= hour <= 12:
        hour = hour % 12 + (12 if half == "pm" else 0)
    elif half or (found and found[2] is None):
        hour = 99
    if hour > 23 or minute > 59:
        raise TimeOfDayError(f"“{written[:40]}” is no time of day: write 14:30, or 2:30 pm.")
    return f"{hour:02d}:{minute:02d}"


@dataclass(frozen=True)
class Running:
    """The running total against the slot, in minutes; `untimed` items have no minutes yet."""

    total: int
    slot: int | None
    untimed: int

    @property
    def over(self) -> int:
        """By how many minutes the talk exceeds its slot, 0 where it does not."""
        return max(0, self.total - self.slot) if self.slot is not None else 0

    @property
    def says(self) -> str:
        """The total in one sentence."""
        says = f"{_minutes(self.total)} in all"
        if self.slot is not None:
            left = self.slot - self.total
            says += f", {abs(left) or 'just'} "
            says += "more than" if left < 0 else "less than" if left else "as long as"
            says += f" the slot of {self.slot}"
        if self.untimed:
            says += (
                f"; {self.untimed} {'item has' if self.untimed == 1 else 'items have'} no minutes"
            )
        return f"{says}."


def running_time(talk: Talk) -> Running:
    """Return what the items of a talk take; headings need no minutes of their own."""
    headings = [item for item in talk.items if item.words and not item.borrowed]
    untimed = sum(item.minutes is None and item not in headings for item in talk.items)
    return Running(sum(item.minutes or 0 for item in talk.items), talk.minutes, untimed)


def on_the_clock(begins: str, after: int) -> str:
    """Return the time of day so many minutes after the beginning, "2:05 pm".

    Where the beginning is not set, the time since then: "0:05".
    """
    if not begins:
        return f"{after // 60}:{after % 60:02d}"
    hours, minutes = (int(part) for part in begins.split(":"))
    now = (hours * 60 + minutes + after) % _DAY
    half = "am" if now < _DAY // 2 else "pm"
    return f"{(now // 60 - 1) % 12 + 1}:{now % 60:02d} {half}"


def _minutes(number: int) -> str:
    return f"{number} {'minute' if number == 1 else 'minutes'}"
