"""The object file: everything on record of one quilt, for the archive box."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from catalogue.collection.describing import composed
from catalogue.collection.measuring import measured_things
from catalogue.collection.ownership import printed
from catalogue.collection.records import Quilt
from catalogue.collection.summary import chief_photograph
from catalogue.printing.entries import Entry
from catalogue.printing.facts import facts_of
from catalogue.printing.pictures import Pictures
from catalogue.printing.plain_text import plain_paragraphs

Facts = list[tuple[str, str]]


def object_file_item(entry: Entry, pictures: Pictures) -> dict[str, Any]:
    """Return one object file as its template takes it; private facts only if the entry has them."""
    quilt = entry.quilt
    sections = [("The quilt", list(facts_of(quilt, entry.related))), *_sections(entry)]
    return {
        "accession": entry.accession,
        "title": quilt.title,
        "foot": f"Record {quilt.id}, revision {quilt.revision}",
        "sections": [
            {"heading": heading, "facts": [fact for fact in facts if fact[1]]}
            for heading, facts in sections
            if any(text for _, text in facts)
        ],
        "proof": entry.proof,
        **pictures.photograph(chief_photograph(quilt), "page", quilt.title),
        **pictures.drawing(quilt),
        **pictures.code(quilt, entry.house),
    }


def _sections(entry: Entry) -> Iterator[tuple[str, Facts]]:
    quilt = entry.quilt
    paragraph = quilt.paragraph or composed(quilt, entry.related)
    yield (
        "Description",
        [
            ("", plain_paragraphs(quilt.description)),
            ("", paragraph),
            ("", plain_paragraphs(quilt.history)),
        ],
    )
    yield (
        "Making",
        [
            (
                phase.kind,
                "\n".join(
                    part
                    for part in (
                        phase.date.written if phase.date is not None else "",
                        phase.place,
                        phase.note,
                    )
                    if part
                ),
            )
            for phase in quilt.phases
        ],
    )
    yield (
        "Tape readings",
        [
            (thing.of, "; ".join(reading.written for reading in thing.readings))
            for thing in measured_things(quilt)
        ],
    )
    yield (
        "Labels and inscriptions",
        [
            (each.kind, "\n".join(part for part in (each.text, each.where, each.how) if part))
            for each in quilt.inscriptions
        ],
    )
    yield "Ownership", [("", printed(quilt.ownership) if quilt.ownership else "")]
    yield (
        "The object",
        [
            ("status", quilt.status),
            ("earlier numbers", "; ".join(each.number for each in quilt.earlier_numbers)),
            ("features", quilt.distinguishing_features),
            ("related material", plain_paragraphs(quilt.related_material)),
        ],
    )
    yield from _private(entry)


def _private(entry: Entry) -> Iterator[tuple[str, Facts]]:
    """Yield what only members see; all of it is empty in a record made for visitors."""
    quilt: Quilt = entry.quilt
    donor = entry.related.parties[quilt.donor].name if quilt.donor is not None else ""
    value = f"{quilt.insurance_value} {quilt.insurance_note}".strip()
    if value:
        value += "\nValues here are not appraisals."
    yield (
        "How it came",
        [
            ("by", quilt.came_by),
            ("from", donor),
            ("received", quilt.received.written if quilt.received is not None else ""),
            ("restrictions", quilt.restrictions),
            ("value for insurance", value),
        ],
    )
    yield (
        "Condition",
        [
            (
                report.on or "condition",
                f"{report.grade}. {report.text}\nDyes and pesticides: {report.hazard}."
                f" {report.hazard_note}".strip(),
            )
            for report in quilt.conditions
        ],
    )
    yield (
        "Where it has been kept",
        [
            (place.since or "place", f"{place.place} {place.note}".strip())
            for place in quilt.locations
        ],
    )
