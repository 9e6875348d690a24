"""What a chain of owners leaves open or contradicts, each finding in one plain sentence."""

from __future__ import annotations

from collections.abc import Sequence

from catalogue.provenance.chronology import examine_dates
from catalogue.provenance.findings import FamilyTie, Finding, Maker
from catalogue.provenance.kinship import examine_descent, examine_donor
from catalogue.provenance.lives import examine_makers, examine_owners
from catalogue.provenance.periods import Period
from catalogue.provenance.transfer_dates import UNKNOWN, Bounds

__all__ = ["examine"]

_ORDER = ("contradiction", "question", "gap")


def examine(
    periods: Sequence[Period],
    made: Bounds = UNKNOWN,
    makers: Sequence[Maker] = (),
    donor: str = "",
    collection: str = "",
    ties: Sequence[FamilyTie] = (),
) -> tuple[Finding, ...]:
    """Return every finding, contradictions first, then questions, then gaps in their order.

    `made` bounds the making in ISO days; `donor` is who gave the quilt to `collection`, by the
    names recorded; `ties` are the family ties known. What is not given is not examined.
    """
    found = (
        *examine_dates(periods, made),
        *examine_owners(periods),
        *examine_makers(makers, made),
        *examine_donor(periods, donor, collection),
        *examine_descent(periods, makers, ties),
    )
    return tuple(sorted(found, key=lambda finding: _ORDER.index(finding.severity)))
