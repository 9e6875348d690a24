"""Eras: what they are called, which years they mean, and what was made and printed in them."""

from __future__ import annotations

from flask import Blueprint, abort, render_template

from catalogue.collection.publishing import printings_between
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.summary import summarise
from catalogue.dating.clues import clue_table
from catalogue.dating.eras import UnknownEraError, era, eras
from catalogue.web.shared import database, index, quilts_in_view, reader

pages = Blueprint("eras", __name__)


@pages.get("/eras")
def era_list() -> str:
    """Show every era with the number of quilts that may have been made in it."""
    counts = {
        each.key: find(
            database(),
            index(),
            Wanted(from_year=each.first, to_year=each.last),
            reader=reader(),
        ).total
        for each in eras()
    }
    return render_template("eras/list.html", eras=eras(), counts=counts)


@pages.get("/eras/<key>")
def one_era(key: str) -> str:
    """Show one era: its quilts, the patterns printed in it, the clues that speak for it."""
    try:
        asked = era(key)
    except UnknownEraError:
        abort(404)
    found = find(
        database(),
        index(),
        Wanted(from_year=asked.first, to_year=asked.last, sort="date"),
        reader=reader(),
    )
    quilts, related = quilts_in_view(found.ids)
    clues = [
        clue
        for clue in clue_table().values()
        if clue.peak_from is not None and clue.peak_to is not None
        if clue.peak_from <= asked.last and clue.peak_to >= asked.first
    ]
    return render_template(
        "eras/era.html",
        era=asked,
        found=found,
        summaries=[summarise(quilt, related) for quilt in quilts],
        printings=printings_between(database(), asked.first, asked.last),
        clues=clues,
    )
