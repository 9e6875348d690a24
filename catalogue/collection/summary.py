"""What a list shows of a quilt: a line or a picture's caption."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.collection.records import Phase, Photograph, Quilt
from catalogue.collection.related import Related
from catalogue.collection.vocabulary import NOT_DATING
from catalogue.dating.phases import Phase as DatedPhase
from catalogue.dating.phases import headline

UNKNOWN_MAKER = "maker unknown"


@dataclass(frozen=True)
class Summary:
    """A quilt in a list; `photograph` is its first overall view, or else its first."""

    id: int
    accession: str
    title: str
    makers: str
    date: str
    patterns: tuple[str, ...]
    status: str
    published: bool
    photograph: Photograph | None


def summarise(quilt: Quilt, related: Related) -> Summary:
    """Return what a list shows of this quilt."""
    assert quilt.id is not None
    return Summary(
        id=quilt.id,
        accession=quilt.accession,
        title=quilt.title,
        makers=makers_line(quilt, related),
        date=headline_date(quilt),
        patterns=tuple(pattern.name for pattern in related.patterns_of(quilt)),
        status=quilt.status,
        published=quilt.published,
        photograph=chief_photograph(quilt),
    )


def headline_date(quilt: Quilt) -> str:
    """Return the date in a line: "about 1935", or "blocks 1890s, set and quilted 1978"."""
    phases = [phase for phase in quilt.phases if phase.kind not in NOT_DATING]
    set_apart = any(phase.kind == "set together" for phase in phases)
    return headline(
        [
            DatedPhase(
                "blocks" if phase.kind == "pieced" and set_apart else _done(phase), phase.date
            )
            for phase in phases
            if phase.date is not None
        ]
    )


def _done(phase: Phase) -> str:
    return "set" if phase.kind == "set together" else phase.kind


def makers_line(quilt: Quilt, related: Related) -> str:
    """Return the makers' names in the order of the phases, or that nobody knows them."""
    names = [party.name for party in related.makers_of(quilt)]
    if len(names) > 3:
        return f"{', '.join(names[:3])} and {len(names) - 3} more"
    return " and ".join(filter(None, [", ".join(names[:-1]), *names[-1:]])) or UNKNOWN_MAKER


def chief_photograph(quilt: Quilt) -> Photograph | None:
    """Return the photograph that stands for the quilt, or None where there is none."""
    overall = [photo for photo in quilt.photographs if photo.view == "overall"]
    return next(iter([*overall, *quilt.photographs]), None)
