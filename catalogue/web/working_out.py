"""Working things out from sizes: how a block was drafted, what to cut, whether a border fits."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from flask import Blueprint, render_template, request
from flask_login import login_required
from werkzeug.datastructures import MultiDict

from catalogue.collection.layouts import chosen
from catalogue.collection.records import Quilt
from catalogue.measurement.borders_fit import BorderFit, BorderFitError, fit_border
from catalogue.measurement.cutting import ROUNDINGS, Cut, CuttingError, Piece, cut_size
from catalogue.measurement.drafting import Drafting, DraftingError, infer_drafting
from catalogue.values.lengths import format_inches
from catalogue.web.forms.working_out import WorkingOutForm
from catalogue.web.shared import record_or_404

pages = Blueprint("working_out", __name__)

Answer = TypeVar("Answer")

_PIECES: tuple[Piece, ...] = (
    "square",
    "half-square triangle",
    "quarter-square triangle",
    "side triangle",
    "corner triangle",
)
_FLOATING = ("side triangle", "corner triangle")


@pages.get("/quilts/<int:id>/working-out")
@login_required
def working_out(id: int) -> str:
    """Show what follows from the sizes given, or at first from the sizes on record."""
    quilt = record_or_404(Quilt, id)
    form = WorkingOutForm(request.args or _sizes_on_record(quilt))
    form.validate()
    problems: list[str] = []
    return render_template(
        "measuring/working_out.html",
        quilt=quilt,
        form=form,
        drafting=_attempt(_drafting, form, problems),
        cuts=_attempt(_cuts, form, problems),
        border=_attempt(_border, form, problems),
        roundings=list(ROUNDINGS),
        problems=problems,
    )


def _sizes_on_record(quilt: Quilt) -> MultiDict[str, str]:
    """Return block, patches and centre as they stand, in the form's own fields."""
    sizes: dict[str, str] = {}
    standing = chosen(quilt)
    if standing is not None and standing.layout.dimensions.block is not None:
        adjusted = standing.layout.dimensions
        sizes["block"] = format_inches(adjusted.block.width) if adjusted.block else ""
        for name, side in (("centre_width", "width"), ("centre_length", "length")):
            around = ("left", "right") if side == "width" else ("top", "bottom")
            borders = sum(getattr(border, edge) for border in adjusted.borders for edge in around)
            centre = getattr(adjusted.overall, side) - borders - 2 * adjusted.binding
            sizes[name] = format_inches(centre)
    patches = [reading.written for reading in quilt.readings if reading.part == "patch"]
    return MultiDict(sizes | {"patches": "; ".join(patches)})


def _attempt(
    work: Callable[[WorkingOutForm], Answer | None], form: WorkingOutForm, problems: list[str]
) -> Answer | None:
    """Return what comes of the sizes, or None and a sentence among the problems."""
    try:
        return work(form)
    except (DraftingError, CuttingError, BorderFitError) as error:
        problems.append(str(error))
        return None


def _drafting(form: WorkingOutForm) -> Drafting | None:
    block = form.block.first
    if block is None or not form.patches.sizes:
        return None
    patches_are = form.patches_are.data if form.patches_are.data in ("finished", "cut") else None
    patches = [float(size) for size in form.patches.sizes]
    return infer_drafting(block, patches, patches_are=patches_are)


def _cuts(form: WorkingOutForm) -> list[tuple[Piece, dict[str, Cut]]] | None:
    """Return each piece with what to cut for it, by the name of the rounding."""
    block, margin = form.block.first, form.margin.first or 0.0
    if block is None:
        return None
    return [
        (
            piece,
            {
                name: cut_size(
                    piece, block, margin=margin if piece in _FLOATING else 0, rounding=rounding
                )
                for name, rounding in ROUNDINGS.items()
            },
        )
        for piece in _PIECES
    ]


def _border(form: WorkingOutForm) -> BorderFit | None:
    width, length, unit = form.centre_width.first, form.centre_length.first, form.unit.first
    if width is None or length is None or unit is None:
        return None
    return fit_border(width, length, unit)
