"""Periods of ownership on record, as the provenance notation knows them, and back."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable

from catalogue.collection.records import OwnershipPeriod, Party, Quilt
from catalogue.collection.related import Related
from catalogue.provenance.examination import examine
from catalogue.provenance.findings import FamilyTie, Finding, Maker
from catalogue.provenance.periods import Note, Period, Provenance
from catalogue.provenance.printing import print_provenance
from catalogue.provenance.reading import parse_provenance
from catalogue.provenance.transfer_dates import NO_DATES, UNKNOWN, Bounds, read_transfer_dates
from catalogue.values.dates import HistoricDate
from catalogue.values.life_dates import LifeDates, LifeDatesError, parse_life_dates

# Elements that are called alike on record and in the notation.
_ALIKE = (
    *("party", "life", "relation", "method", "agent", "place", "event", "seller_agent"),
    *("transfer_place", "stock_number", "price", "dealer", "possibly"),
)


def dated(period: OwnershipPeriod) -> OwnershipPeriod:
    """Return the period with begin and end bounded as its written dates say. Raises DateError."""
    dates = read_transfer_dates(period.dates) if period.dates else NO_DATES
    return dataclasses.replace(
        period,
        begins_earliest=dates.begins[0] or "",
        begins_latest=dates.begins[1] or "",
        ends_earliest=dates.ends[0] or "",
        ends_latest=dates.ends[1] or "",
    )


def to_provenance(ownership: Iterable[OwnershipPeriod]) -> Provenance:
    """Return periods on record in the notation; grounds and citations become footnotes."""
    ownership = tuple(ownership)
    notes: list[Note] = []
    periods = []
    for place, period in enumerate(ownership):
        markers = []
        if period.note:
            markers.append(str(1 + sum(note.heading == "Notes" for note in notes)))
            notes.append(Note(markers[-1], period.note))
        if period.citation:
            markers.append(_letter(sum(note.heading == "Citations" for note in notes)))
            notes.append(Note(markers[-1], period.citation, "Citations"))
        last = place == len(ownership) - 1
        periods.append(_to_notation(period, tuple(markers), last))
    ordered = sorted(notes, key=lambda note: note.heading != "Notes")
    return Provenance(tuple(periods), tuple(ordered))


def from_provenance(provenance: Provenance) -> tuple[OwnershipPeriod, ...]:
    """Return the periods of a text in the notation as they go on record."""
    entries = {note.marker: note.text for note in provenance.notes if note.marker}
    return tuple(_from_notation(period, entries) for period in provenance.periods)


def read_text(text: str) -> tuple[tuple[OwnershipPeriod, ...], tuple[str, ...]]:
    """Return the periods that a provenance text tells of, and what to look at in them."""
    provenance = parse_provenance(text)
    return from_provenance(provenance), provenance.cautions


def printed(ownership: Iterable[OwnershipPeriod]) -> str:
    """Return the periods as a provenance text in the notation of the standard."""
    return print_provenance(to_provenance(ownership))


def made_within(quilt: Quilt) -> Bounds:
    """Return the days between which the quilt was first there: from its first work to its last."""
    dates = [p.date for p in quilt.phases if p.date is not None and p.kind != "repaired"]
    earliest = [date.earliest for date in dates if date.earliest is not None]
    latest = [date.latest for date in dates if date.latest is not None]
    return min(earliest, default=None), max(latest, default=None)


def findings(
    quilt: Quilt, related: Related, collection: str, *, disputed: bool = True
) -> tuple[Finding, ...]:
    """Return what makers and owners leave open or contradict.

    `collection` is the name under which the collection itself stands among the owners; without
    `disputed`, makers whose part in it is disputed are left aside.
    """
    return examine(
        to_provenance(quilt.ownership).periods,
        made_within(quilt),
        tuple(_makers(quilt, related, disputed)),
        related.parties[quilt.donor].name if quilt.donor is not None else "",
        collection,
        tuple(_ties(related)),
    )


def _to_notation(period: OwnershipPeriod, markers: tuple[str, ...], last: bool) -> Period:
    return Period(
        **{name: getattr(period, name) for name in _ALIKE},
        dates=read_transfer_dates(period.dates) if period.dates else NO_DATES,
        notes=markers,
        doubtful=frozenset(filter(None, period.doubtful.split(", "))) - {"begins", "ends"},
        direct_transfer=None if last else period.direct,
    )


def _from_notation(period: Period, entries: dict[str, str]) -> OwnershipPeriod:
    texts = [(marker, entries.get(marker, "")) for marker in period.notes]
    return OwnershipPeriod(
        **{name: getattr(period, name) for name in _ALIKE},
        dates=period.dates.phrase,
        begins_earliest=period.begins[0] or "",
        begins_latest=period.begins[1] or "",
        ends_earliest=period.ends[0] or "",
        ends_latest=period.ends[1] or "",
        doubtful=", ".join(sorted(period.all_doubts)),
        direct=bool(period.direct_transfer),
        note=" ".join(
            [*(text for marker, text in texts if not marker.isalpha() and text), *period.unread]
        ),
        citation=" ".join(text for marker, text in texts if marker.isalpha() and text),
    )


def _makers(quilt: Quilt, related: Related, disputed: bool) -> Iterable[Maker]:
    for phase in quilt.phases:
        made = (phase.date.earliest, phase.date.latest) if phase.date is not None else UNKNOWN
        for maker in phase.makers:
            party = related.parties[maker.party]
            if party.kind == "person" and (disputed or maker.certainty != "disputed"):
                yield Maker(party.name, life_of(party), made)


def life_of(party: Party) -> LifeDates:
    """Return a person's life dates as the provenance module takes them."""
    try:
        return parse_life_dates(f"{_year(party.born)}-{_year(party.died)}")
    except LifeDatesError:
        return LifeDates()


def _year(date: HistoricDate | None) -> str:
    """Return the year of a date, marked where it is not exactly known; empty where unknown."""
    if date is None or date.earliest_year is None:
        return ""
    exact = date.earliest_year == date.latest_year
    return f"{date.earliest_year}{'' if exact else '?'}"


def _ties(related: Related) -> Iterable[FamilyTie]:
    for party in related.parties.values():
        for tie in party.ties:
            if tie.relative in related.parties:
                yield FamilyTie(related.parties[tie.relative].name, tie.relation, party.name)


def _letter(number: int) -> str:
    """Return the marker of a citation: a to z, then aa, ab ..."""
    letters = ""
    number += 1
    while number:
        number, place = divmod(number - 1, 26)
        letters = chr(ord("a") + place) + letters
    return letters
