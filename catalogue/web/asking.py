"""How to ask: what a question's words were taken for, and the page that explains it."""

from __future__ import annotations

from dataclasses import dataclass

from flask import Blueprint, render_template

from catalogue.collection.search.questions import OTHER_NAMES, Question
from catalogue.collection.search.searchable import FIELDS, fields_seen
from catalogue.dating.eras import Era, era, eras
from catalogue.patterns.asked import designs_asked_for
from catalogue.patterns.thesaurus import Design
from catalogue.web.shared import reader

pages = Blueprint("asking", __name__)

# What each field of the index holds, and a word to look for in it.
MEANINGS = {
    "title": ("the title and the kind of object", "crib"),
    "number": ("accession numbers, earlier ones too", "1987*"),
    "maker": ("makers and groups, under each of their names", "winter"),
    "pattern": ("patterns, under every name they have been given or printed under", "star"),
    "source": ("the publication a pattern comes from, and whose name it bore", "column"),
    "place": ("where it was made", "ohio"),
    "date": ("years, as written or as an era", "1930s"),
    "cloth": ("what top, backing, batting and thread are of", "cotton"),
    "colour": ("colours", "indigo"),
    "technique": ("how it was worked, its setting, quilting and edge", "appliqué"),
    "label": ("words on labels, signatures and inscriptions", "mother"),
    "description": ("the description", "basket"),
    "history": ("what is told of it", "wedding"),
    "ownership": ("who owned it", "daughter"),
    "donor": ("who gave it", "winter"),
    "location": ("where it is kept", "shelf"),
    "condition": ("reports of its condition", "fading"),
    "restrictions": ("what may not be done with it", "loan"),
}


@dataclass(frozen=True)
class Field:
    """A field that can be asked for: its name, other names for it, what it holds, an example."""

    name: str
    others: tuple[str, ...]
    holds: str
    example: str


def fields() -> list[Field]:
    """Return the fields in which the person asking may search."""
    names = (*FIELDS, *sorted(fields_seen(reader()) - set(FIELDS)))
    return [
        Field(
            name,
            tuple(other for other, same in OTHER_NAMES.items() if same == name),
            MEANINGS[name][0],
            f"{name}:{MEANINGS[name][1]}",
        )
        for name in names
    ]


def eras_asked_for(question: Question) -> list[Era]:
    """Return the eras that a question names."""
    return [era(key) for key in dict.fromkeys(s.era for s in question.spans if s.era)]


def designs_named(question: Question) -> tuple[Design, ...]:
    """Return the designs that a question names and that have other names too."""
    asked = (part for part in question.wanted if part.field in (None, "pattern"))
    words = [word for part in asked if not part.beginning for word in part.text.split()]
    return tuple(each for each in designs_asked_for(words) if len(each.names) > 1)


@pages.get("/search/how")
def how() -> str:
    """Explain how to ask, with the fields, and the eras with their years and sources."""
    return render_template("search/how.html", fields=fields(), eras=eras())
