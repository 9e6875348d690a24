"""Periods of ownership: what their dates, as written, mean as bounds."""

from __future__ import annotations

import dataclasses

from catalogue.collection.records import OwnershipPeriod
from catalogue.provenance.transfer_dates import read_transfer_dates


def dated(period: OwnershipPeriod) -> OwnershipPeriod:
    """Return the period with begin and end bounded as its written dates say. Raises DateError."""
    if not period.dates:
        return dataclasses.replace(
            period, begins_earliest="", begins_latest="", ends_earliest="", ends_latest=""
        )
    dates = read_transfer_dates(period.dates)
    return dataclasses.replace(
        period,
        begins_earliest=dates.begins[0] or "",
        begins_latest=dates.begins[1] or "",
        ends_earliest=dates.ends[0] or "",
        ends_latest=dates.ends[1] or "",
    )
