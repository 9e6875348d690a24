"""Catalogue cards: previewed in the page, printed as PDF, or as a picture."""

from __future__ import annotations

from flask import Blueprint, Response, abort, render_template

from catalogue.collection import settings
from catalogue.printing.cards import CARD_SIZES, CardFace, card_face, print_cards
from catalogue.printing.typeset import Format
from catalogue.web.shared import collection, database, quilt_in_view

pages = Blueprint("cards", __name__)


@pages.get("/quilts/<int:id>/card")
def card(id: int) -> str:
    """Show the card as it will print, with what it says as text."""
    quilt, _ = quilt_in_view(id)
    return render_template("cards/card.html", quilt=quilt, face=_face(id), sizes=CARD_SIZES)


@pages.get("/quilts/<int:id>/card-<size>.<format>")
def file(id: int, size: str, format: str) -> Response:
    """Return the card as PDF or as a picture."""
    if size not in CARD_SIZES or format not in ("pdf", "png"):
        abort(404)
    face = _face(id)
    made = _printed(face, size, "pdf" if format == "pdf" else "png")
    kind = "application/pdf" if format == "pdf" else "image/png"
    answer = Response(made, mimetype=kind)
    name = "".join(c if c.isalnum() else "-" for c in face.accession)
    answer.headers["Content-Disposition"] = f'inline; filename="card-{name}.{format}"'
    return answer


def _face(id: int) -> CardFace:
    quilt, related = quilt_in_view(id)
    return card_face(quilt, related, settings.read(database()))


def _printed(face: CardFace, size: str, format: Format) -> bytes:
    return print_cards(collection(), [face], settings.read(database()), size, format)
