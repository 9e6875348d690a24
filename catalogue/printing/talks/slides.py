"""The slides of a talk as PDF, sixteen to nine."""

from __future__ import annotations

from typing import Any

from catalogue.collection.folder import Collection
from catalogue.collection.settings import Settings
from catalogue.collection.talks.programme import Programme
from catalogue.collection.talks.slides import Slide, slides_of
from catalogue.printing.pictures import Pictures
from catalogue.printing.typeset import typeset

SLIDE_SIZE = (40 / 3, 7.5)  # inches: 16 to 9


def print_slides(collection: Collection, programme: Programme, house: Settings, _: str) -> bytes:
    """Return the slides as PDF, a page each; they have a size of their own on any paper.

    Raises TypesettingError.
    """
    pictures = Pictures(collection)
    width, height = SLIDE_SIZE
    job = {
        "title": programme.talk.title,
        "house": house.name,
        "paper": {"width": width, "height": height},
        "slides": [_slide(slide, pictures) for slide in slides_of(programme)],
    }
    return typeset("talk_slides.typ", job, pictures.files, "pdf")


def _slide(slide: Slide, pictures: Pictures) -> dict[str, Any]:
    drawn = {"drawing": None, "drawing_alt": ""}
    return {
        "look": slide.look,
        "title": slide.title,
        "lines": list(slide.lines),
        "credit": slide.credit,
        **(pictures.design(slide.design) if slide.design else drawn),
        **pictures.photograph(slide.photograph, "large", slide.title),
    }
