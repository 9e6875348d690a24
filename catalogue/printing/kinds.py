"""The kinds of paper that can be printed, and printing them."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

from catalogue.collection.folder import Collection
from catalogue.printing.cards import CARD_SIZES, card_item
from catalogue.printing.entries import Entry
from catalogue.printing.fonts import missing_letters
from catalogue.printing.labels import LABEL_SIZES, label_item
from catalogue.printing.object_files import object_file_item
from catalogue.printing.pictures import NO_PICTURES, Pictures
from catalogue.printing.tags import BACK_LABEL_SIZES, TAG_SIZES, back_label_item, tag_item
from catalogue.printing.typeset import Format, typeset

# Width and height in inches: ISO 216 A4, and Letter of ANSI/ASME Y14.1.
PAPERS = {"A4": (8.2677, 11.6929), "Letter": (8.5, 11.0)}
# Between pieces on a sheet, and what a printer leaves white, in inches.
_GAP, _SHEET_MARGIN = 0.3, 0.3


@dataclass(frozen=True)
class Kind:
    """One kind of paper: its sizes in inches; without any it is printed on whole sheets."""

    key: str
    name: str
    template: str
    item: Callable[[Entry, Pictures], dict[str, Any]]
    sizes: dict[str, tuple[float, float]] = field(default_factory=dict)
    margin: float = 0.25
    note: str = ""


KINDS = {
    kind.key: kind
    for kind in (
        Kind("card", "Catalogue card", "card.typ", card_item, CARD_SIZES),
        Kind("label", "Exhibit label", "label.typ", label_item, LABEL_SIZES, 0.4),
        Kind("booklet", "Labels in large print", "booklet.typ", label_item),
        Kind(
            "tag",
            "Storage tag",
            "tag.typ",
            tag_item,
            TAG_SIZES,
            0.15,
            note="Print on acid-free card, and tie the tag with cotton tape; no pins.",
        ),
        Kind(
            "back",
            "Label for the back",
            "back_label.typ",
            back_label_item,
            BACK_LABEL_SIZES,
            0.25,
            note=(
                "Print on washed cotton ironed to a sheet of paper, try ink and steam on a scrap"
                " first, turn the edge in along the dashed line, and sew through the backing only."
                " Before sewing anything to an old quilt, ask a textile conservator."
            ),
        ),
        Kind("file", "Object file", "file_sheet.typ", object_file_item),
    )
}


def print_entries(
    collection: Collection,
    kind: Kind,
    entries: Sequence[Entry],
    *,
    size: str = "",
    paper: str = "",
    format: Format = "pdf",
    page: int = 1,
    title: str = "",
    subtitle: str = "",
) -> bytes:
    """Return a document of one kind for these quilts, as PDF or one page as a picture.

    `size` names one of the kind's sizes; without `paper` every piece has a page of its own size,
    with it as many go on a sheet as fit, with cut marks. Raises TypesettingError.
    """
    pictures = Pictures(collection)
    items = [kind.item(entry, pictures) for entry in entries]
    width, height = kind.sizes.get(size) or next(iter(kind.sizes.values()), (0.0, 0.0))
    job = {
        "title": title or _title(kind, entries),
        "subtitle": subtitle,
        "house": entries[0].house.name if entries else "",
        "piece": {"width": width, "height": height, "margin": kind.margin},
        "paper": _paper(kind, paper),
        "gap": _GAP,
        "sheet_margin": _SHEET_MARGIN,
        "items": items,
    }
    return typeset(kind.template, job, pictures.files, format, page)


def pages_needed(kind: Kind, size: str, paper: str, pieces: int) -> int | None:
    """Return how many pages so many pieces take, None where that depends on what they say."""
    if not kind.sizes:
        return None
    if not paper:
        return pieces
    width, height = kind.sizes[size]
    on_a_sheet = 1
    for room, side in zip(PAPERS[paper], (width, height), strict=True):
        on_a_sheet *= max(1, int((room - 2 * _SHEET_MARGIN + _GAP) / (side + _GAP)))
    return -(-pieces // on_a_sheet)


def fingerprint(kind: Kind, entry: Entry) -> str:
    """Return a short digest of what a piece says, its pictures and its revision left aside."""
    item = kind.item(entry, NO_PICTURES)
    said = {name: value for name, value in item.items() if name not in ("foot", "proof", "place")}
    return hashlib.sha256(json.dumps(said, ensure_ascii=False).encode()).hexdigest()[:32]


def letters_that_will_not_print(entries: Sequence[Entry]) -> str:
    """Return the letters of these records that no font of the templates holds."""
    texts = [
        " ".join(
            [
                entry.quilt.title,
                entry.label_text,
                entry.quilt.credit_line,
                *(party.name for party in entry.related.parties.values()),
                *(inscription.text for inscription in entry.quilt.inscriptions),
                *(phase.place for phase in entry.quilt.phases),
            ]
        )
        for entry in entries
    ]
    return missing_letters(" ".join(texts))


def _paper(kind: Kind, paper: str) -> dict[str, float] | None:
    if not paper and kind.sizes:
        return None
    width, height = PAPERS.get(paper, PAPERS["A4"])
    return {"width": width, "height": height}


def _title(kind: Kind, entries: Sequence[Entry]) -> str:
    if len(entries) == 1:
        return f"{kind.name}: {entries[0].quilt.title}"
    return f"{kind.name}, {len(entries)} quilts"
