"""The one table of house wording: makers not known, dates in doubt, attributions in dispute."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from string import Formatter
from typing import Literal, get_args

from catalogue.values.dates import HistoricDate
from catalogue.values.lengths import quoted
from catalogue.values.life_dates import LifeDates

Certainty = Literal["certain", "probable", "possible", "disputed"]


class WordingError(ValueError):
    """A change of the house wording that does not fit the table."""


def _parts(wording: str) -> set[str]:
    """The names in braces; raises WordingError where they are not well formed."""
    try:
        parts = [part for part in Formatter().parse(wording) if part[1] is not None]
    except ValueError:
        raise WordingError(f"The braces in {quoted(wording)} do not match.") from None
    if any(form or conversion for _, _, form, conversion in parts):
        raise WordingError(f"The braces in {quoted(wording)} hold more than a name.")
    return {str(name) for _, name, _, _ in parts}


@dataclass(frozen=True)
class HouseWording:
    """The table by section and key, as one collection words it."""

    table: Mapping[str, Mapping[str, str]]

    def __call__(self, section: str, key: str, **parts: str) -> str:
        """The house's words with their parts filled in."""
        return self.table[section][key].format(**parts)

    def changed(self, settings: Mapping[str, str]) -> HouseWording:
        """The table with some wordings replaced, by "section.key".

        Raises WordingError for a key that is not there, and for words that leave out or add a
        part in braces.
        """
        table = {section: dict(words) for section, words in self.table.items()}
        for name, words in settings.items():
            section, _, key = name.partition(".")
            if key not in table.get(section, {}):
                raise WordingError(f"The house wording has no {quoted(name)}.")
            wanted = _parts(table[section][key])
            if _parts(words) != wanted:
                parts = ", ".join(f"{{{part}}}" for part in sorted(wanted)) or "nothing in braces"
                raise WordingError(f"{quoted(words)} for {quoted(name)} must hold {parts}.")
            table[section][key] = words
        return HouseWording(table)


HOUSE_WORDING = HouseWording(
    tomllib.loads(Path(__file__).with_name("house_wording.toml").read_text("utf-8"))
)
"""The table as it comes."""


@dataclass(frozen=True)
class Maker:
    """One maker as a label names her; `work` is what she did ("pieced"), "" for the whole."""

    name: str
    life: LifeDates | None = None
    work: str = ""
    certainty: Certainty = "certain"

    def __post_init__(self) -> None:
        if self.certainty not in get_args(Certainty):
            raise WordingError(f"{quoted(self.certainty)} is not a certainty of an attribution.")


def maker_words(makers: Sequence[Maker], wording: HouseWording = HOUSE_WORDING) -> str:
    """The makers in one line, each as sure as she is: "Pieced by …; probably quilted by …".

    A maker without a name but with a work is not known for that work; without any maker the line
    says so. Whose life dates may be shown is for the caller to decide.
    """
    if not any(maker.name or maker.work for maker in makers):
        return wording("maker", "unknown")
    groups = groupby(makers, key=lambda maker: (maker.work, maker.certainty, bool(maker.name)))
    parts = [_group(work, sure, list(members), wording) for (work, sure, _), members in groups]
    return sentence_case("; ".join(part for part in parts if part))


def _group(work: str, sure: Certainty, makers: Sequence[Maker], wording: HouseWording) -> str:
    names = [named(maker, wording) for maker in makers if maker.name]
    if not names:
        return wording("work", "unknown", work=work) if work else wording("maker", "unknown")
    if work:
        return wording("work", sure, work=work, names=listed(names, wording))
    return wording("maker", sure, names=listed(names, wording))


def named(maker: Maker, wording: HouseWording = HOUSE_WORDING) -> str:
    """The name with its life dates: "Ann Pell (1842–1910)", "Ann Pell (born about 1842)"."""
    life = life_words(maker.life, wording) if maker.life else ""
    return wording("names", "life", name=maker.name, life=life) if life else maker.name


def life_words(life: LifeDates, wording: HouseWording = HOUSE_WORDING) -> str:
    """Life dates in words, a doubtful year as about; "" where neither is known."""
    born = _year(life.born, life.born_doubtful, wording)
    died = _year(life.died, life.died_doubtful, wording)
    if born and died:
        return wording("names", "span", born=born, died=died)
    if born:
        return wording("names", "born", year=born)
    return wording("names", "died", year=died) if died else ""


def _year(year: int | None, doubtful: bool, wording: HouseWording) -> str:
    if year is None:
        return ""
    return wording("names", "doubt", year=str(year)) if doubtful else str(year)


def listed(names: Sequence[str], wording: HouseWording = HOUSE_WORDING) -> str:
    """Names joined with commas and a last "and"."""
    *others, last = names
    return wording("names", "and", first=", ".join(others), last=last) if others else last


def date_words(
    date: HistoricDate | None, wording: HouseWording = HOUSE_WORDING, *, opening: bool = True
) -> str:
    """The date as the house words it: "About 1935", "Date not known".

    With `opening` it begins with a capital; without, it may follow a place on the same line.
    """
    return phase_words((("", date),), wording, opening=opening)


def phase_words(
    phases: Sequence[tuple[str, HistoricDate | None]],
    wording: HouseWording = HOUSE_WORDING,
    *,
    opening: bool = True,
) -> str:
    """The dates of the phases of making: "Top about 1935; quilted 1972".

    Phases of one date are told together; the date stands alone where it is the only one.
    """
    told: dict[str, list[str]] = {}
    for done, date in phases:
        told.setdefault(_date(date, wording), []).append(done)
    parts = list(told) or [_date(None, wording)]
    if len(told) > 1:
        parts = [
            f"{listed([done for done in works if done], wording)} {date}" if any(works) else date
            for date, works in told.items()
        ]
    words = "; ".join(parts)
    return sentence_case(words) if opening else words


def _date(date: HistoricDate | None, wording: HouseWording) -> str:
    if date is None:
        return wording("date", "undated")
    table = wording.table["date"]
    longest = sorted(table, key=len, reverse=True)
    pattern = rf"\b(?:{'|'.join(map(re.escape, longest))})\b"
    return re.sub(pattern, lambda match: table[match[0]], date.says)


def sentence_case(words: str) -> str:
    """The words with their first letter as a capital."""
    return words[:1].upper() + words[1:]


def wordings() -> Iterator[tuple[str, str]]:
    """Every "section.key" of the table with its words, for a page of settings."""
    for section, words in HOUSE_WORDING.table.items():
        for key, value in words.items():
            yield f"{section}.{key}", value
