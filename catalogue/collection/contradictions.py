"""What cannot all be true in one record."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.collection.ownership import findings
from catalogue.collection.records import Phase, Quilt
from catalogue.collection.related import Related
from catalogue.values.dates import HistoricDate


def contradictions(quilt: Quilt, related: Related, collection: str) -> Iterator[str]:
    """Yield a sentence for each contradiction in makers, dates and owners that rests on no doubt.

    `collection` is the name under which the collection itself stands among the owners.
    """
    for phase in quilt.phases:
        yield from _against_arrival(phase, quilt.received)
    for finding in findings(quilt, related, collection, disputed=False):
        if finding.severity == "contradiction" and finding.certain:
            yield finding.says


def _against_arrival(phase: Phase, received: HistoricDate | None) -> Iterator[str]:
    if phase.kind == "repaired" or phase.date is None or received is None:
        return
    if received.latest and phase.date.earliest and received.latest < phase.date.earliest:
        yield f"It was received {received.says}, before it was {phase.kind} ({phase.date.says})."
