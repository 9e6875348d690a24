"""The pull list on paper: what is fetched from where, with boxes to tick out and back."""

from __future__ import annotations

from datetime import date

from catalogue.collection.folder import Collection
from catalogue.collection.settings import Settings
from catalogue.collection.talks.carrying import load_of
from catalogue.collection.talks.programme import Programme
from catalogue.collection.talks.pulling import Pull, pull_list
from catalogue.collection.talks.travelling import why_staying
from catalogue.printing.lists import TICK, Listing, cautions_on_paper, print_listing
from catalogue.printing.talks.sheets import when_and_where


def print_pull_list(
    collection: Collection, programme: Programme, house: Settings, paper: str
) -> bytes:
    """Return the pull list as PDF, in the order of the shelves. Raises TypesettingError."""
    talk = programme.talk
    stays = why_staying(collection.database, programme, date.today())
    listing = Listing(
        "Pull list",
        ("out", "back", "place", "what", "how to handle it"),
        (0.4, 0.4, 1.8, 0, 1.7),
        tuple(_row(pull) for pull in pull_list(programme, stays)),
        cautions_on_paper("pull list"),
        load_of(programme).says,
    )
    return print_listing(listing, talk.title, when_and_where(talk), house, paper)


def _row(pull: Pull) -> tuple[str, ...]:
    number = f"{pull.number}. " if pull.number is not None else ""
    what = "\n".join(part for part in (f"{number}{pull.title}", pull.accession) if part)
    return (TICK, TICK, pull.place, what, "\n".join(pull.handling))
