"""A talk shown and printed: slides in the browser, and everything else as PDF."""

from __future__ import annotations

from collections.abc import Callable

from flask import Blueprint, Response, abort, render_template, request

from catalogue.collection import settings
from catalogue.collection.folder import Collection
from catalogue.collection.settings import Settings
from catalogue.collection.talks.programme import Programme
from catalogue.collection.talks.slides import slides_of
from catalogue.printing.kinds import PAPERS
from catalogue.printing.talks.handout import print_handout
from catalogue.printing.talks.pull_list import print_pull_list
from catalogue.printing.talks.slides import print_slides
from catalogue.printing.talks.speaker import print_speaker
from catalogue.web.shared import collection, database
from catalogue.web.talks import papers_of, programme_in_view

pages = Blueprint("talk_paper", __name__)

_PRINTERS: dict[str, Callable[[Collection, Programme, Settings, str], bytes]] = {
    "speaker": print_speaker,
    "handout": print_handout,
    "slides": print_slides,
    "pull": print_pull_list,
}


@pages.get("/talks/<int:id>/slides")
def slides(id: int) -> str:
    """Show the slides one below the other, run by keyboard where there is script."""
    programme = programme_in_view(id)
    return render_template("talks/slides.html", talk=programme.talk, slides=slides_of(programme))


@pages.get("/talks/<int:id>/<key>.pdf")
def paper(id: int, key: str) -> Response:
    """Return one of the papers of a talk, if the person asking may print it."""
    if key not in papers_of():
        abort(404)
    wanted = request.args.get("paper", "A4")
    programme = programme_in_view(id)
    made = _PRINTERS[key](
        collection(),
        programme,
        settings.read(database()),
        wanted if wanted in PAPERS else "A4",
    )
    answer = Response(made, mimetype="application/pdf")
    answer.headers["Content-Disposition"] = f'inline; filename="{key}.pdf"'
    return answer
