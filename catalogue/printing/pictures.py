"""The pictures of a printed piece: photograph, drawing of the layout, code of its address."""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from typing import Any

import segno

from catalogue.collection import photographs
from catalogue.collection.folder import Collection
from catalogue.collection.layouts import chosen
from catalogue.collection.records import Photograph, Quilt
from catalogue.collection.settings import Settings
from catalogue.measurement.drawing import draw_layout
from catalogue.measurement.drawing_words import layout_title
from catalogue.patterns import thesaurus
from catalogue.patterns.drawing import draw_design
from catalogue.photographs.derivatives import PhotographError


@dataclass
class Pictures:
    """Files by the names that the data of a template uses; none without a collection."""

    collection: Collection | None
    files: dict[str, bytes] = field(default_factory=dict)

    def photograph(self, photograph: Photograph | None, size: str, title: str) -> dict[str, Any]:
        """Return what a template takes for a photograph, the words for it included."""
        if photograph is None or self.collection is None:
            return {"photo": None, "photo_alt": ""}
        try:
            file = photographs.smaller(self.collection, photograph, size, "jpg")
            name = self._add(file.read_bytes(), "jpg")
        except (OSError, PhotographError):
            return {"photo": None, "photo_alt": ""}  # the check of the collection names the loss
        words = photograph.alternative_text or f"Photograph of {title}"
        return {"photo": name, "photo_alt": words}

    def drawing(self, quilt: Quilt) -> dict[str, Any]:
        """Return what a template takes for the drawing of the layout, nothing if not measured."""
        standing = chosen(quilt) if self.collection is not None else None
        if standing is None:
            return {"drawing": None, "drawing_alt": ""}
        drawn = draw_layout(standing.layout, dimensions=False, plain_colours=True)
        words = f"Drawing to scale: {layout_title(standing.layout)}"
        return {"drawing": self._add(drawn.encode(), "svg"), "drawing_alt": words}

    def design(self, slug: str) -> dict[str, Any]:
        """Return what a template takes for the drawing of a traditional design."""
        design = thesaurus.design(slug)
        name = self._add(draw_design(design).encode(), "svg")
        return {"drawing": name, "drawing_alt": f"Drawing of the block {design.name}"}

    def code(self, quilt: Quilt, house: Settings) -> dict[str, Any]:
        """Return what a template takes for the code that opens the record, if it has an address."""
        address = record_address(quilt, house)
        if not address or self.collection is None:
            return {"qr": None, "qr_alt": ""}
        buffer = io.BytesIO()
        segno.make(address, error="m", micro=False).save(buffer, kind="svg", border=2, scale=4)
        return {"qr": self._add(buffer.getvalue(), "svg"), "qr_alt": f"Code that opens {address}"}

    def _add(self, content: bytes, suffix: str) -> str:
        name = f"picture-{len(self.files)}.{suffix}"
        self.files[name] = content
        return name


def record_address(quilt: Quilt, house: Settings) -> str:
    """Return the address of a quilt's record on the net, empty where the house has none."""
    base = house.base_address.rstrip("/")
    return f"{base}/quilts/{quilt.id}" if base else ""


NO_PICTURES = Pictures(None)
"""For what a piece says, where nothing is drawn."""
