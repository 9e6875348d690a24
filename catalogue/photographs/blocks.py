"""Pictures of one block, and how well draftings fit it: a suggestion, never an identification."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from PIL import Image

from catalogue.photographs.colour_space import Floats, to_lab
from catalogue.photographs.homography import Corners
from catalogue.photographs.straightening import straightened

Grid = Sequence[Sequence[str]]

_CELLS = 48
_MOST_BLOCKS = 36
_SEAM_ALLOWANCE = 0.03  # of the side, along the edge of a block, left out of the comparison
_LEAST_CONTRAST = 4.0  # CIELAB difference from the mean under which a block is plain
_PER_CLOTH = 0.01  # taken off for every cloth more, since more cloths always fit better
_LEAST_FIT = 0.35  # score; on the sample collection the right drafting comes to 0.49 and more
_NAMES = ("as drafted", "90", "180", "270")


@dataclass(frozen=True)
class DraftingFit:
    """How well a drafting fits: the share of the block's differences of colour that it explains.

    `position` says how the drafting has to be laid: "as drafted", turned by so many degrees, or
    mirrored first.
    """

    key: str
    score: float
    position: str


def cut_block(picture: Image.Image, outline: Corners, side: int) -> Image.Image:
    """Return one block squared up, `side` pixels a side; `outline` is clockwise in pixels."""
    return straightened(picture, outline, (side, side))


def median_block(picture: Image.Image, outlines: Sequence[Corners], side: int) -> Image.Image:
    """Return the block that the blocks have in common, pixel by pixel their median.

    Where several kinds take turns, the kind is taken that has most pattern and most fellows.
    Raises ValueError without any outlines.
    """
    if not outlines:
        raise ValueError("There are no blocks to take the median of.")
    looked_at = _some(outlines)
    cut = np.stack([np.asarray(cut_block(picture, each, side)) for each in looked_at])
    alike = cut[_alike(cut)]
    return Image.fromarray(np.median(alike, axis=0).astype(np.uint8))


def _some(outlines: Sequence[Corners]) -> Sequence[Corners]:
    """Return at most so many, without an order that could fall in with columns or rows."""
    if len(outlines) <= _MOST_BLOCKS:
        return outlines
    chosen = np.random.default_rng(0).permutation(len(outlines))[:_MOST_BLOCKS]
    return [outlines[number] for number in sorted(chosen)]


def _alike(blocks: npt.NDArray[np.uint8]) -> npt.NDArray[np.intp]:
    """The half of the blocks nearest to one that has pattern in it and near fellows."""
    count = len(blocks)
    if count < 4:
        return np.arange(count)
    half = (count + 1) // 2
    small = blocks[:, ::4, ::4].reshape(count, -1).astype(np.float32)
    contrast = small.std(axis=1)
    squared = (small**2).mean(axis=1)
    apart = squared[:, None] + squared[None] - 2 * (small @ small.T) / small.shape[1]
    apart = np.sqrt(np.maximum(apart, 0))
    fellows = np.sort(apart, axis=1)[:, 1:half].mean(axis=1)
    fellows[contrast < 0.6 * contrast.max()] = np.inf
    return np.sort(np.argsort(apart[int(fellows.argmin())])[:half])


def rank_draftings(
    block: Image.Image, draftings: Mapping[str, Grid], most: int = 5
) -> tuple[DraftingFit, ...]:
    """Return the draftings that fit best, best first, and none that hardly fits at all.

    Each is handed in as a plain grid of colour roles.
    """
    small = block.convert("RGB").resize((_CELLS, _CELLS), Image.Resampling.BOX)
    edge = round(_SEAM_ALLOWANCE * _CELLS)
    inner = slice(edge, _CELLS - edge)
    colours = to_lab(np.asarray(small))[inner, inner].reshape(-1, 3)
    fits = [
        _best(key, grid, colours, inner) for key, grid in draftings.items() if len(grid) and grid[0]
    ]
    fitting = [fit for fit in fits if fit.score >= _LEAST_FIT]
    return tuple(sorted(fitting, key=lambda fit: (-fit.score, fit.key))[:most])


def _best(key: str, grid: Grid, colours: Floats, inner: slice) -> DraftingFit:
    """The position in which a drafting fits best."""
    roles = sorted({str(role) for row in grid for role in row})
    numbers = np.array([[roles.index(str(role)) for role in row] for row in grid])
    down, across = (np.arange(_CELLS) * size // _CELLS for size in numbers.shape)
    laid = numbers[down][:, across]
    scores = {
        _position(mirrored, turns): _explained(moved[inner, inner].ravel(), len(roles), colours)
        for mirrored in (False, True)
        for turns in range(4)
        # a quarter turn clockwise, after mirroring left to right
        for moved in [np.rot90(laid[:, ::-1] if mirrored else laid, -turns)]
    }
    position = max(scores, key=lambda name: scores[name])
    return DraftingFit(key, round(max(0.0, scores[position]), 3), position)


def _position(mirrored: bool, turns: int) -> str:
    if not mirrored:
        return _NAMES[turns]
    return f"mirrored, {_NAMES[turns]}" if turns else "mirrored"


def _explained(labels: npt.NDArray[np.intp], kinds: int, colours: Floats) -> float:
    """The share of the variance of colour that lies between the roles, less for many roles."""
    total = float(((colours - colours.mean(axis=0)) ** 2).sum())
    counts = np.bincount(labels, minlength=kinds)
    sums = np.stack([np.bincount(labels, colours[:, k], kinds) for k in range(3)], axis=1)
    there = counts > 0
    means = sums[there] / counts[there][:, None]
    between = float((counts[there][:, None] * (means - colours.mean(axis=0)) ** 2).sum())
    return between / max(total, _LEAST_CONTRAST**2 * len(colours)) - _PER_CLOTH * (
        int(there.sum()) - 1
    )
