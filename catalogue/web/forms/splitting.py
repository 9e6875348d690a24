"""A text that tells of several phases of making, typed as one date, offered as rows."""

from __future__ import annotations

import re
from collections.abc import Mapping

from werkzeug.datastructures import MultiDict

from catalogue.values.date_policy import DatePolicy
from catalogue.values.dates import DateError, WrittenPhase, read_phases

# Words that tell what was done, and the work they stand for on record.
_WORK = {
    "top": "pieced",
    "blocks": "pieced",
    "block": "pieced",
    "pieced": "pieced",
    "made": "pieced",
    "appliquéd": "appliquéd",
    "embroidered": "embroidered",
    "set": "set together",
    "assembled": "set together",
    "quilted": "quilted",
    "finished": "quilted",
    "bound": "bound",
    "repaired": "repaired",
}
_FIELD = re.compile(r"phases-(\d{1,3})-date")


def phases_in(text: str, policy: DatePolicy) -> tuple[WrittenPhase, ...]:
    """Return the phases that a text tells of, none where it is a date or nothing at all."""
    try:
        phases = read_phases(text, policy)
    except DateError:
        return ()
    return phases if any(phase.done for phase in phases) else ()


def split_rows(sent: Mapping[str, str], field: str, policy: DatePolicy) -> MultiDict[str, str]:
    """Return what was sent with one phase's date spread over rows, one for each work it tells of.

    The first work stays in its row, with whatever else is written there.
    """
    made: MultiDict[str, str] = MultiDict(sent)
    match = _FIELD.fullmatch(field)
    works = _works(phases_in(sent.get(field, ""), policy))
    if match is None or not works:
        return made
    taken = [int(found[1]) for name in sent if (found := re.match(r"phases-(\d{1,3})-", name))]
    rows = [int(match[1]), *range(max(taken) + 1, max(taken) + len(works))]
    for row, (kind, date) in zip(rows, works, strict=True):
        if kind:
            made[f"phases-{row}-kind"] = kind
        made[f"phases-{row}-date"] = date
    return made


def _works(phases: tuple[WrittenPhase, ...]) -> list[tuple[str, str]]:
    """Return each work with its date as written; "set and quilted 1978" are two works."""
    works = []
    for phase in phases:
        kinds = dict.fromkeys(
            _WORK[word] for word in phase.done.casefold().split() if word in _WORK
        )
        works += [(kind, phase.date.written) for kind in kinds or [""]]
    return works
