"""Years of birth and death with their doubt, as provenance texts and family records write them."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

__all__ = ["LifeDates", "LifeDatesError", "parse_life_dates"]


class LifeDatesError(ValueError):
    """A text that gives no life dates, or impossible ones; its message is one sentence."""


@dataclass(frozen=True)
class LifeDates:
    """Years of birth and death, None where not known, each with its doubt; text as written."""

    born: int | None = None
    died: int | None = None
    born_doubtful: bool = False
    died_doubtful: bool = False
    written: str = field(default="", compare=False)

    def __str__(self) -> str:
        """The notation of provenance texts without its brackets: 1880?-1990, 1880-, -1955."""
        born = "" if self.born is None else f"{self.born}{'?' * self.born_doubtful}"
        died = "" if self.died is None else f"{self.died}{'?' * self.died_doubtful}"
        return f"{born}-{died}"


_ABOUT = r"(?:c\.?|ca\.?|circa|about)\s*"
_YEAR = rf"(?:(?P<about_{{0}}>{_ABOUT})?(?P<{{0}}>[0-9]{{{{4}}}})(?P<doubt_{{0}}>\s*\?)?)"
_LIFE = re.compile(
    rf"(?:(?:b\.|born)\s*)?{_YEAR.format('born')}?"
    rf"\s*(?P<dash>[-–—])?\s*(?:(?:d\.|died)\s*)?{_YEAR.format('died')}?",
    re.IGNORECASE,
)


def parse_life_dates(text: str) -> LifeDates:
    """Return the life dates in `1880-1955`, `[1880?-]`, `b. 1880` or `died 1955`.

    A circa counts as doubt. Raises LifeDatesError, also where death comes before birth.
    """
    written = " ".join(text.split())
    inner = written.strip("[]()").strip()
    match = _LIFE.fullmatch(inner)
    if match is None or not (match["born"] or match["died"]):
        raise LifeDatesError(
            f'"{text}" gives no life dates; write 1880-1955, 1880-, -1955 or 1880?-1955.'
        )
    if not match["dash"] and not re.match(r"b\.|born|d\.|died", inner, re.IGNORECASE):
        raise LifeDatesError(f'"{text}" does not say whether it is birth or death; add the dash.')
    born, died = (int(match[which]) if match[which] else None for which in ("born", "died"))
    if born is not None and died is not None and died < born:
        raise LifeDatesError(f'"{text}" has a death in {died} before a birth in {born}.')
    born_doubt, died_doubt = (
        bool(match[f"about_{which}"] or match[f"doubt_{which}"]) for which in ("born", "died")
    )
    return LifeDates(born, died, born_doubt, died_doubt, written)
