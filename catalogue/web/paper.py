"""Paper: cards, labels, tags and files of one quilt or many, previewed, approved and printed."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import Any

from flask import Blueprint, Response, abort, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import login_required
from werkzeug.datastructures import MultiDict

from catalogue.collection.exhibits.shows import days_of
from catalogue.collection.paper import (
    APPROVED,
    NotYetError,
    PaperState,
    Sheet,
    approve,
    mark_read,
    out_of_date,
    remember_printed,
    state_of,
)
from catalogue.collection.search.facets import LABELS
from catalogue.exhibits.labels import Advice, advise
from catalogue.printing.entries import Entry
from catalogue.printing.kinds import (
    KINDS,
    PAPERS,
    Kind,
    fingerprint,
    letters_that_will_not_print,
    pages_needed,
    print_entries,
)
from catalogue.printing.typeset import Format
from catalogue.web.addresses import whole_number
from catalogue.web.selection import Selection, selected
from catalogue.web.shared import collection, database, historian_only, is_member, signed_name

pages = Blueprint("paper", __name__)

# What visitors may print: nothing on it is private.
PUBLIC_KINDS = ("card", "label", "booklet")
# What in an address says which quilts are meant.
WHICH = ("quilts", "exhibit", "find", "q", "from", "to", *LABELS, "sort")


@dataclass(frozen=True)
class Piece:
    """One piece to print: the entry, where its wording stands, and advice on its text."""

    entry: Entry
    fingerprint: str
    state: PaperState
    advice: tuple[Advice, ...]


@pages.get("/print")
def choose() -> str:
    """Show what would be printed, as it would print, and where each wording stands."""
    selection, kind = selected(request.args), _kind(request.args)
    pieces = [_piece(entry, kind) for entry in selection.entries]
    size, paper = _size(request.args, kind), _paper(request.args)
    return render_template(
        "paper/print.html",
        selection=selection,
        kind=kind,
        kinds=[each for each in KINDS.values() if is_member() or each.key in PUBLIC_KINDS],
        papers=PAPERS,
        pieces=pieces,
        size=size,
        paper=paper,
        page=_page(request.args),
        sheets=pages_needed(kind, size, paper, len(pieces)),
        missing=letters_that_will_not_print(selection.entries),
        arguments=request.args.to_dict(flat=False),
        which=WHICH,
        all_approved=all(piece.state.state == APPROVED for piece in pieces),
    )


@pages.get("/print/page.png")
def preview() -> Response:
    """Return one page as a picture, exactly as it will print."""
    return _printed(selected(request.args), request.args, "png", _page(request.args))


@pages.get("/print/paper.pdf")
def paper() -> Response:
    """Return the paper as PDF; what is not approved bears the word PROOF."""
    return _printed(selected(request.args), request.args, "pdf")


@pages.post("/print/paper.pdf")
@login_required
def print_and_remember() -> Response:
    """Return the paper as PDF and remember at which revision of each record it was printed."""
    selection, kind = selected(request.form), _kind(request.form)
    pieces = [_piece(entry, kind) for entry in selection.entries]
    answer = _printed(selection, request.form, "pdf")
    sheets = [
        Sheet(
            piece.entry.quilt.id or 0,
            piece.entry.quilt.revision,
            piece.fingerprint,
            piece.state.state != APPROVED,
        )
        for piece in pieces
    ]
    remember_printed(database(), kind.key, sheets, signed_name())
    return answer


@pages.post("/print/state")
@login_required
def decide() -> ResponseReturnValue:
    """Mark a wording as read by a second person, or approve it."""
    kind, id = _kind(request.form), whole_number(request.form.get("quilt"))
    pieces = [_piece(entry, kind) for entry in selected(request.form).entries]
    piece = next((each for each in pieces if each.entry.quilt.id == id), None)
    if piece is None or id is None:
        abort(404)
    if piece.fingerprint != request.form.get("fingerprint"):
        flash("The wording has changed meanwhile: read it once more.", "error")
        return redirect(_back(request.form))
    try:
        if "approve" in request.form:
            historian_only()
            approve(database(), id, kind.key, piece.fingerprint, signed_name())
        else:
            mark_read(database(), id, kind.key, piece.fingerprint, signed_name())
    except NotYetError as error:
        flash(str(error), "error")
    return redirect(_back(request.form))


@pages.get("/print/out-of-date")
@login_required
def stale() -> str:
    """Show the paper whose record has changed since it was printed, with what changed."""
    return render_template("paper/out_of_date.html", stale=out_of_date(database()), kinds=KINDS)


def _piece(entry: Entry, kind: Kind) -> Piece:
    mark = fingerprint(kind, entry)
    state = state_of(database(), entry.quilt.id or 0, kind.key, mark)
    proof = state.state != APPROVED
    advice = advise(entry.label_text) if entry.label_text else ()
    return Piece(dataclasses.replace(entry, proof=proof), mark, state, advice)


def _printed(
    selection: Selection, arguments: MultiDict[str, str], format: Format, page: int = 1
) -> Response:
    kind = _kind(arguments)
    if not selection.entries:
        abort(404)
    exhibit = selection.exhibit
    made = print_entries(
        collection(),
        kind,
        [_piece(entry, kind).entry for entry in selection.entries],
        size=_size(arguments, kind),
        paper=_paper(arguments),
        format=format,
        page=page,
        title=exhibit.title if exhibit is not None and not kind.sizes else "",
        subtitle="\n".join(filter(None, [exhibit.venue, days_of(exhibit)])) if exhibit else "",
    )
    answer = Response(made, mimetype="application/pdf" if format == "pdf" else "image/png")
    answer.headers["Content-Disposition"] = f'inline; filename="{kind.key}.{format}"'
    return answer


def _kind(arguments: MultiDict[str, str]) -> Kind:
    key = arguments.get("kind", "card")
    if key not in KINDS or not (is_member() or key in PUBLIC_KINDS):
        abort(404)
    return KINDS[key]


def _size(arguments: MultiDict[str, str], kind: Kind) -> str:
    size = arguments.get("size", "")
    return size if size in kind.sizes else next(iter(kind.sizes), "")


def _page(arguments: MultiDict[str, str]) -> int:
    return whole_number(arguments.get("page"), 400) or 1


def _paper(arguments: MultiDict[str, str]) -> str:
    paper = arguments.get("paper", "")
    return paper if paper in PAPERS else ""


def _back(sent: MultiDict[str, str]) -> str:
    """Return the address of the page the decision came from."""
    names = ("kind", "size", "paper", *WHICH)
    kept: dict[str, Any] = {name: sent.getlist(name) for name in names if sent.get(name)}
    return url_for("paper.choose", **kept)
