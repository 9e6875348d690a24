"""The search page: words, years and patterns, with the hits marked in their context."""

from __future__ import annotations

from flask import Blueprint, render_template, request

from catalogue.collection.records import Quilt, RelatedItem
from catalogue.collection.related import Related
from catalogue.collection.related_items import items_with
from catalogue.collection.search.extracts import Extract, extracts
from catalogue.collection.search.finding import find
from catalogue.collection.search.questions import read_question
from catalogue.collection.search.searchable import FIELDS, searchable_texts
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
        published_only=not is_member(),
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
        extracts=_extracts(quilts, related, wanted.words),
        patterns=patterns_in_use(database(), published_only=not is_member()),
        fields=FIELDS,
    )


def _items(typed: str) -> list[RelatedItem]:
    """Return the related material that holds every word typed."""
    asked = [part.text for part in read_question(typed).parts if not part.excluded]
    return items_with(database(), asked, reader=reader())


def _extracts(
    quilts: list[Quilt], related: Related, typed: str
) -> dict[int | None, tuple[Extract, ...]]:
    """Return, by quilt, the extracts around the words typed."""
    question = read_question(typed)
    if not question.parts:
        return {}
    texts = searchable_texts(quilts, related)
    return {q.id: extracts(text, question) for q, text in zip(quilts, texts, strict=True)}
