"""Accession numbers in the year.lot.item convention, kept as written and sorted part by part.

Source of the convention: The New Museum Registration Methods (1998): `1995.1` is one object,
`1995.4.1` one item of a transaction that brought several, `1995.4.3.1` a part of a set and
`1995.5.2a` a component of one object.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import total_ordering
from itertools import zip_longest

__all__ = ["AccessionError", "AccessionNumber", "next_number", "parse_accession"]

_LARGEST = 999_999  # six digits a part keep the text key of fixed width
_LAYOUT = "write year.lot.item, for example 1995.1, 1995.4.1, 1995.4.3.1 or 1995.5.2a"
_HYPHENS = str.maketrans("\u2010\u2011\u2012\u2013\u2014\u2212", "------")
_PARTS = re.compile(r"([0-9]+)((?:[.-][0-9]+)*)([A-Za-z]*)")


class AccessionError(ValueError):
    """A text that is no accession number; its message is one sentence for the cataloguer."""


@total_ordering
@dataclass(frozen=True)
class AccessionNumber:
    """One accession number; two are equal when their parts are, however they are punctuated.

    `item` and `part` are 0 where the number has none, `component` is "" or lower-case letters.
    """

    year: int
    lot: int
    item: int = 0
    part: int = 0
    component: str = ""
    written: str = field(default="", compare=False)

    def __str__(self) -> str:
        numbers = (self.year, self.lot, self.item, self.part)
        return self.written or ".".join(str(part) for part in numbers if part) + self.component

    def __lt__(self, other: AccessionNumber) -> bool:
        if not isinstance(other, AccessionNumber):
            return NotImplemented
        return self.sort_key < other.sort_key

    @property
    def sort_key(self) -> tuple[int, int, int, int, int, str]:
        """The parts as numbers, so that 1995.4.10 follows 1995.4.9 and `aa` follows `z`."""
        letters = self.component
        return (self.year, self.lot, self.item, self.part, len(letters), letters)

    @property
    def sort_text(self) -> str:
        """A text of fixed width that any plain `ORDER BY` sorts exactly as `sort_key` does."""
        year, lot, item, part, length, letters = self.sort_key
        return f"{year:04d}.{lot:06d}.{item:06d}.{part:06d}.{length}{letters}"

    @property
    def is_component(self) -> bool:
        """True where the number ends in a component letter."""
        return bool(self.component)

    @property
    def whole(self) -> AccessionNumber:
        """The number of the object that this component belongs to; the number itself if none."""
        if not self.component:
            return self
        return AccessionNumber(
            self.year, self.lot, self.item, self.part, "", str(self)[: -len(self.component)]
        )


def parse_accession(text: str) -> AccessionNumber:
    """Return the accession number that `text` writes, with its points or hyphens kept.

    Raises AccessionError, with one sentence that says what is wrong.
    """
    written = text.strip()
    match = _PARTS.fullmatch(written.translate(_HYPHENS))
    if match is None:
        raise AccessionError(f'"{written}" is not an accession number: {_LAYOUT}.')
    year, rest, letters = match.groups()
    numbers = _numbers(written, rest)
    if len(year) != 4:
        raise AccessionError(
            f'"{written}" does not begin with a whole year: write all four figures, as in 1995.4.1.'
        )
    if len(letters) > 2:
        raise AccessionError(f'"{written}" has more than two component letters at its end.')
    lot, item, part = (*numbers, 0, 0)[:3]
    return AccessionNumber(int(year), lot, item, part, letters.lower(), written)


def _numbers(written: str, rest: str) -> tuple[int, ...]:
    """Return the one to three numbers after the year."""
    if "." in rest and "-" in rest:
        raise AccessionError(
            f'"{written}" mixes points and hyphens; use one of the two throughout.'
        )
    texts = re.findall(r"[0-9]+", rest)
    if not 1 <= len(texts) <= 3:
        count = "no number after the year" if not texts else "too many parts"
        raise AccessionError(f'"{written}" has {count}: {_LAYOUT}.')
    if any(len(text) > 6 for text in texts):
        raise AccessionError(f'"{written}" has a part above {_LARGEST:,}.')
    numbers = tuple(int(text) for text in texts)
    if 0 in numbers:
        raise AccessionError(f'"{written}" has a part that is 0; count from 1.')
    return numbers


def next_number(
    existing: Iterable[AccessionNumber], year: int, lot: int | None = None
) -> AccessionNumber:
    """Return the number after the highest of `year`, or after the highest item of `lot`.

    Numbers that were given up are not used again, and the house's punctuation and leading zeros
    are followed. A lot that is still empty, or holds one object only, begins with item 1.
    """
    known = sorted(existing)
    same_year = [number for number in known if number.year == year]
    model = str((same_year or known or [AccessionNumber(year, 1)])[-1])
    if lot is None:
        highest = max((number.lot for number in same_year), default=0)
        return parse_accession(_like(model, year, highest + 1))
    highest = max((number.item for number in same_year if number.lot == lot), default=0)
    return parse_accession(_like(model, year, lot, highest + 1))


def _like(model: str, *numbers: int) -> str:
    """Write `numbers` with the separator and the leading zeros of `model`."""
    plain = model.translate(_HYPHENS)
    shapes = re.findall(r"[0-9]+", plain)
    widths = [len(shape) if shape.startswith("0") else 0 for shape in shapes]
    separator = "-" if "-" in plain else "."
    filled = zip_longest(numbers, widths[: len(numbers)], fillvalue=0)
    return separator.join(str(number).zfill(width) for number, width in filled)
