"""How much of the time in which a quilt was made lies within the years that are asked for."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from catalogue.collection.search.facts import EVER_AFTER, EVER_BEFORE, bounded
from catalogue.collection.search.shelf import Shelf

Scores = NDArray[np.float32]

# Where begin or end of the work is not known, its span is taken to go on for this long (house
# rule), so that a quilt dated "before 1900" ranks below one dated to the decade asked for.
_OPEN_YEARS = 100
_LEAST_SHARE = 0.01  # of a span that touches the years at all


def weighed(scores: Scores, share: Scores) -> Scores:
    """Return the scores of rows that share the years, half of each resting on how much."""
    return np.where(share > 0, scores * (1 + share) / 2, 0).astype(np.float32)


def share_within(shelf: Shelf, first: int | None, last: int | None) -> Scores:
    """Return which part of each row's span lies within the years: 1 all of it, 0 none."""
    begun, ended = shelf.plain.first.astype(np.int32), shelf.plain.last.astype(np.int32)
    touching = np.ones(len(shelf), bool)
    if first is not None:
        first = bounded(first)
        touching &= ended >= first
    if last is not None:
        last = bounded(last)
        touching &= begun <= last
    touching &= begun <= ended
    never_begun, never_ended = begun == EVER_BEFORE, ended == EVER_AFTER
    begun = np.where(never_begun & ~never_ended, ended - _OPEN_YEARS, begun)
    ended = np.where(never_ended & ~never_begun, begun + _OPEN_YEARS, ended)
    within = (
        np.minimum(ended, ended if last is None else last)
        - np.maximum(begun, begun if first is None else first)
        + 1
    )
    share = np.clip(within / np.maximum(ended - begun + 1, 1), _LEAST_SHARE, 1)
    return np.where(touching, share, 0).astype(np.float32)
