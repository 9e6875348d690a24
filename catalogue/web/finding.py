"""The search page: words, years and facets, and what was found in one of four views."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from flask import Blueprint, Response, abort, render_template, request

from catalogue.collection.happenings import note
from catalogue.collection.records import RelatedItem
from catalogue.collection.related_items import items_with
from catalogue.collection.search.extracts import Extract, extracts_of
from catalogue.collection.search.facets import LABELS
from catalogue.collection.search.finding import Found, find
from catalogue.collection.search.questions import read_question
from catalogue.collection.summary import summarise
from catalogue.exchange.result_sheet import columns_for, heading_line, quilt_line
from catalogue.web.addresses import whole_number
from catalogue.web.asking import designs_named, eras_asked_for
from catalogue.web.narrowing import as_seen, chips, choices_of, folds, words_alone
from catalogue.web.search_addresses import SearchAddress
from catalogue.web.selection import MOST as MOST_PRINTED
from catalogue.web.shared import (
    database,
    index,
    is_member,
    quilts_in_view,
    reader,
    signed_name,
)
from catalogue.web.timeline import timeline_of

pages = Blueprint("finding", __name__)

_PER_PAGE = {"list": 20, "pictures": 24, "table": 40, "timeline": 40}
_MOST_VALUES = 5000  # of one facet on its own page
_AT_ONCE = 200  # quilts that an export holds in memory


@pages.get("/search")
def search() -> str:
    """Show what was found, with what it can be narrowed by beside it."""
    asked = SearchAddress.read(request.args)
    page = whole_number(request.args.get("page")) or 1
    found = _found(asked, page, _PER_PAGE[asked.view], 12)
    asked = as_seen(asked, found.facets)
    quilts, related = quilts_in_view(found.ids)
    return render_template(
        "search/search.html",
        asked=asked,
        wanted=asked.wanted,
        found=found,
        summaries=[summarise(quilt, related) for quilt in quilts],
        timeline=timeline_of(quilts, related) if asked.view == "timeline" else None,
        folds=folds(asked, found.facets),
        chips=chips(asked, found.facets),
        words_alone=words_alone(asked),
        eras=eras_asked_for(found.question),
        designs=designs_named(found.question),
        items=_items(asked.wanted.words),
        extracts=_extracts(asked, found),
        most_printed=MOST_PRINTED,
    )


def _found(asked: SearchAddress, page: int, per_page: int, values_at_most: int = 0) -> Found:
    return find(
        database(),
        index(),
        asked.wanted,
        reader=reader(),
        page=page,
        per_page=per_page,
        count=bool(values_at_most),
        values_at_most=values_at_most,
    )


def _extracts(asked: SearchAddress, found: Found) -> dict[int, tuple[Extract, ...]]:
    if asked.view != "list":
        return {}
    return extracts_of(database(), found.ids, found.question, reader=reader())


def _items(typed: str) -> list[RelatedItem]:
    """Return the related material that holds every word typed."""
    texts = [part.text for part in read_question(typed).parts if not part.excluded]
    return items_with(database(), texts, reader=reader())


@pages.get("/search/all/<facet>")
def all_values(facet: str) -> str:
    """Show every value of one facet, in the order of the alphabet."""
    if facet not in LABELS:
        abort(404)
    asked = SearchAddress.read(request.args)
    found = _found(asked, 1, 1, _MOST_VALUES)
    asked = as_seen(asked, found.facets)
    shown = next((each for each in found.facets if each.name == facet), None)
    if shown is None:
        abort(404)
    choices = sorted(choices_of(asked, shown), key=lambda choice: choice.label.casefold())
    return render_template("search/values.html", asked=asked, facet=shown, choices=choices)


@pages.get("/search/quilts.csv")
def spreadsheet() -> Response:
    """Return the whole result as a spreadsheet in the columns that its reader may see."""
    asked = SearchAddress.read(request.args)
    ids = _found(asked, 1, 10**9).ids
    if is_member():
        looked_for = asked.wanted.words or "without words"
        quilts = "1 quilt" if len(ids) == 1 else f"{len(ids)} quilts"
        note(database(), signed_name(), "exported", f"{quilts} as a spreadsheet: {looked_for}")

    # made whole before it is sent: a file cut off by a fault would look as if it were all
    answer = Response("".join(_lines(ids)), mimetype="text/csv")
    name = f"quilts-{date.today().isoformat()}.csv"
    answer.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer


def _lines(ids: tuple[int, ...]) -> Iterator[str]:
    columns = columns_for(reader())
    yield heading_line(columns)
    for start in range(0, len(ids), _AT_ONCE):
        quilts, related = quilts_in_view(ids[start : start + _AT_ONCE])
        yield "".join(quilt_line(columns, quilt, related) for quilt in quilts)
