"""The search page: words, years and patterns, with the hits marked in their context."""

from __future__ import annotations

from flask import Blueprint, render_template, request

from catalogue.collection.records import RelatedItem
from catalogue.collection.related_items import items_with
from catalogue.collection.search.extracts import extracts_of
from catalogue.collection.search.finding import find
from catalogue.collection.search.questions import read_question
from catalogue.collection.search.searchable import FIELDS, fields_seen
from catalogue.collection.summary import summarise
from catalogue.collection.used import patterns_in_use
from catalogue.web.addresses import wanted_from, whole_number
from catalogue.web.shared import database, index, is_member, quilts_in_view, reader

pages = Blueprint("finding", __name__)


@pages.get("/search")
def search() -> str:
    """Show what was found, with extracts around the words looked for."""
    wanted = wanted_from(request.args)
    found = find(
        database(),
        index(),
        wanted,
        reader=reader(),
        page=whole_number(request.args.get("page")) or 1,
        per_page=20,
    )
    quilts, related = quilts_in_view(found.ids)
    return render_template(
        "search/search.html",
        wanted=wanted,
        found=found,
        summaries=[summarise(quilt, related) for quilt in quilts],
        items=_items(wanted.words),
        extracts=extracts_of(database(), found.ids, found.question, reader=reader()),
        patterns=patterns_in_use(database(), published_only=not is_member()),
        fields=FIELDS if not is_member() else (*FIELDS, *sorted(fields_seen(reader()))),
    )


def _items(typed: str) -> list[RelatedItem]:
    """Return the related material that holds every word typed."""
    asked = [part.text for part in read_question(typed).parts if not part.excluded]
    return items_with(database(), asked, reader=reader())
