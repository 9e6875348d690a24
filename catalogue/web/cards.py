"""The catalogue card of one quilt: previewed in the page, as PDF, or as a picture."""

from __future__ import annotations

from flask import Blueprint, Response, abort, render_template
from werkzeug.datastructures import MultiDict

from catalogue.printing.entries import Entry
from catalogue.printing.facts import facts_of
from catalogue.printing.kinds import KINDS, print_entries
from catalogue.printing.pictures import record_address
from catalogue.web.selection import selected
from catalogue.web.shared import collection

pages = Blueprint("cards", __name__)

CARD = KINDS["card"]


@pages.get("/quilts/<int:id>/card")
def card(id: int) -> str:
    """Show the card as it will print, with what it says as text."""
    entry = _entry(id)
    return render_template(
        "cards/card.html",
        quilt=entry.quilt,
        accession=entry.accession,
        facts=facts_of(entry.quilt, entry.related),
        address=record_address(entry.quilt, entry.house),
        sizes=CARD.sizes,
    )


@pages.get("/quilts/<int:id>/card-<size>.<format>")
def file(id: int, size: str, format: str) -> Response:
    """Return the card as PDF or as a picture."""
    if size not in CARD.sizes or format not in ("pdf", "png"):
        abort(404)
    entry = _entry(id)
    made = print_entries(
        collection(), CARD, [entry], size=size, format="pdf" if format == "pdf" else "png"
    )
    answer = Response(made, mimetype="application/pdf" if format == "pdf" else "image/png")
    name = "".join(c if c.isascii() and c.isalnum() else "-" for c in entry.accession)
    answer.headers["Content-Disposition"] = f'inline; filename="card-{name}.{format}"'
    return answer


def _entry(id: int) -> Entry:
    """Return the quilt to print, as far as the person asking may see it, or end with 404."""
    entries = selected(MultiDict({"quilts": str(id)})).entries
    return entries[0] if entries else abort(404)
