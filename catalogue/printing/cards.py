"""Catalogue cards: what a card says of a quilt, and the card on paper or as a picture."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import segno

from catalogue.collection import photographs
from catalogue.collection.folder import Collection
from catalogue.collection.layouts import chance, chosen
from catalogue.collection.measuring import overall_size
from catalogue.collection.publishing import designer_line, printing_line
from catalogue.collection.records import Party, Photograph, Quilt
from catalogue.collection.related import Related
from catalogue.collection.settings import Settings
from catalogue.collection.summary import UNKNOWN_MAKER, chief_photograph, headline_date
from catalogue.measurement.drawing import draw_layout
from catalogue.measurement.drawing_words import layout_title
from catalogue.printing.sizes import size_in_words
from catalogue.printing.typeset import Format, typeset

# Width and height in inches: two sizes of index card (common practice, no source).
CARD_SIZES = {"6x4": (6.0, 4.0), "5x3": (5.0, 3.0)}


@dataclass(frozen=True)
class CardFace:
    """What one card shows: facts in their order as (label, text), pictures with words for them."""

    accession: str
    title: str
    facts: tuple[tuple[str, str], ...]
    foot: str
    photograph: Photograph | None
    drawing: str
    drawing_in_words: str
    address: str


def card_face(quilt: Quilt, related: Related, settings: Settings) -> CardFace:
    """Return what a card says of a quilt. `settings.base_address`, if any, leads to the record."""
    drawing, in_words = _drawing(quilt)
    base = settings.base_address.rstrip("/")
    return CardFace(
        accession=quilt.accession or "not accessioned",
        title=quilt.title,
        facts=tuple((label, text) for label, text in _facts(quilt, related) if text),
        foot=f"Record {quilt.id}, revision {quilt.revision}",
        photograph=chief_photograph(quilt),
        drawing=drawing,
        drawing_in_words=in_words,
        address=f"{base}/quilts/{quilt.id}" if base else "",
    )


def _facts(quilt: Quilt, related: Related) -> Iterator[tuple[str, str]]:
    yield "Maker", _makers(quilt, related)
    yield "Date", headline_date(quilt)
    yield "Place", "; ".join(dict.fromkeys(p.place for p in quilt.phases if p.place))
    yield "Pattern", "\n".join(_patterns(quilt, related))
    yield "Size", size_in_words(overall_size(quilt))
    yield "Layout", _layout(quilt)
    yield "Materials", "; ".join(f"{m.part}: {m.fibre}" for m in quilt.materials if m.fibre)
    yield "Techniques", ", ".join(_techniques(quilt))
    yield "Label", "\n".join(i.text for i in quilt.inscriptions if i.kind == "label")
    yield "Credit", quilt.credit_line


def _makers(quilt: Quilt, related: Related) -> str:
    """Return each maker with life dates and the work they did."""
    work: dict[int, list[str]] = {}
    for phase in quilt.phases:
        for maker in phase.makers:
            doubt = "" if maker.certainty == "certain" else f" ({maker.certainty})"
            work.setdefault(maker.party, []).append(phase.kind + doubt)
    lines = [
        f"{named(related.parties[id])}: {', '.join(dict.fromkeys(kinds))}"
        for id, kinds in work.items()
    ]
    return "\n".join(lines) or UNKNOWN_MAKER


def named(party: Party) -> str:
    """Return a name with its life dates, as far as they are known."""
    born = party.born.says if party.born is not None else ""
    died = party.died.says if party.died is not None else ""
    if not born and not died:
        return party.name
    return f"{party.name} ({born or '?'}\N{EN DASH}{died or ('' if party.living else '?')})"


def _patterns(quilt: Quilt, related: Related) -> Iterator[str]:
    for block in quilt.blocks:
        if block.pattern is None:
            continue
        line = related.patterns[block.pattern].name
        printing = related.printing(block.printing)
        if printing is not None:
            name = f"\u201c{printing.name_as_printed}\u201d, " if printing.name_as_printed else ""
            where = printing_line(printing, related.publications[printing.publication])
            designer = designer_line(printing)
            line += f"; published as {name}{where}" + (f", by {designer}" if designer else "")
        yield line + ("" if block.certainty == "certain" else f" ({block.certainty})")


def _techniques(quilt: Quilt) -> Iterator[str]:
    for technique in quilt.techniques:
        yield f"{technique.name} {technique.worked}".strip()
    if quilt.quilting_worked:
        yield f"quilted {quilt.quilting_worked}".replace("quilted not quilted", "not quilted")
    if quilt.stitches_per_inch:
        yield f"{quilt.stitches_per_inch} stitches to the inch on the top"


def _layout(quilt: Quilt) -> str:
    standing = chosen(quilt)
    if standing is None:
        return ""
    layout = standing.layout
    if standing.accepted:
        return layout_title(layout)
    return f"{layout_title(layout)} (inferred, {chance(layout.probability)} probable)"


def _drawing(quilt: Quilt) -> tuple[str, str]:
    """Return the drawing of the layout and what it shows, both empty where nothing is measured."""
    standing = chosen(quilt)
    if standing is None:
        return "", ""
    drawing = draw_layout(standing.layout, dimensions=False, plain_colours=True)
    return drawing, f"Drawing to scale: {layout_title(standing.layout)}"


def print_cards(
    collection: Collection, faces: Sequence[CardFace], settings: Settings, size: str, format: Format
) -> bytes:
    """Return the cards, one a page as PDF, or the first as a picture. Raises TypesettingError."""
    width, height = CARD_SIZES[size]
    pictures: dict[str, bytes] = {}
    cards = [_card_data(collection, face, number, pictures) for number, face in enumerate(faces)]
    title = f"Catalogue card: {faces[0].title}" if len(faces) == 1 else "Catalogue cards"
    job = {
        "title": title,
        "house": settings.name,
        "width": width,
        "height": height,
        "cards": cards,
    }
    return typeset("card.typ", job, pictures, format)


def _card_data(
    collection: Collection, face: CardFace, number: int, pictures: dict[str, bytes]
) -> dict[str, Any]:
    """Return one card as the template takes it, its pictures added to `pictures`."""
    data: dict[str, Any] = {
        "accession": face.accession,
        "title": face.title,
        "facts": face.facts,
        "foot": face.foot,
        "photo": None,
        "photo_alt": "",
        "drawing": None,
        "drawing_alt": face.drawing_in_words,
        "qr": None,
        "qr_alt": f"Code that opens {face.address}",
    }
    if face.photograph is not None:
        data["photo"] = f"photo-{number}.jpg"
        data["photo_alt"] = face.photograph.alternative_text or f"Photograph of {face.title}"
        file = photographs.smaller(collection, face.photograph, "page", "jpg")
        pictures[data["photo"]] = file.read_bytes()
    if face.drawing:
        data["drawing"] = f"drawing-{number}.svg"
        pictures[data["drawing"]] = face.drawing.encode()
    if face.address:
        data["qr"] = f"qr-{number}.svg"
        pictures[data["qr"]] = _qr(face.address)
    return data


def _qr(address: str) -> bytes:
    buffer = io.BytesIO()
    segno.make(address, error="m", micro=False).save(buffer, kind="svg", border=2, scale=4)
    return buffer.getvalue()
