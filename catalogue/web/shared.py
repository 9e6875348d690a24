"""What every view asks for: the collection, the signed-in person, and what a visitor may see."""

from __future__ import annotations

from typing import cast

from flask import abort, current_app
from flask_login import current_user
from sqlite_utils import Database

from catalogue.collection import settings
from catalogue.collection.folder import Collection
from catalogue.collection.privacy import Reader, quilt_for, related_for
from catalogue.collection.records import Quilt
from catalogue.collection.register import Register
from catalogue.collection.related import Related, related_to
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import NotFound, Record, load, load_many
from catalogue.values.date_policy import DatePolicy


def collection() -> Collection:
    """The collection this application serves."""
    return cast(Collection, current_app.extensions["collection"])


def database() -> Database:
    """This thread's connection to it."""
    return collection().database


def index() -> SearchIndex:
    """Its search index."""
    return cast(SearchIndex, current_app.extensions["search_index"])


def refresh_index() -> None:
    """Bring the index up to date after a save; where that fails, the next search tries again.

    The save is confirmed by then and waits in the index's queue: no fault there, of whatever kind,
    may make the page say that the save failed.
    """
    try:
        index().catch_up()
    except Exception:
        current_app.logger.exception("The search index could not be brought up to date.")
        index().close()


def is_member() -> bool:
    """True where somebody with an account is signed in."""
    return bool(current_user.is_authenticated)


def may(role: str) -> bool:
    """Say whether the person asking may do what a role may."""
    return is_member() and current_user.account.is_at_least(role)


def historian_only() -> None:
    """End the request with 403 unless the person signed in is a historian or the keeper."""
    if not may("historian"):
        abort(403)


def keeper_only() -> None:
    """End the request with 403 unless the person signed in is the keeper."""
    if not may("keeper"):
        abort(403)


def reader() -> Reader:
    """The person asking, as far as seeing fields goes."""
    return Reader(current_user.role if is_member() else "visitor", settings.levels(database()))


def signed_name() -> str:
    """The name of the person signed in, as the history keeps it; a visitor's is never kept."""
    return str(current_user.name) if is_member() else "visitor"


def register() -> Register:
    """The names on record, for the person signed in."""
    return Register(database(), signed_name())


def date_policy() -> DatePolicy:
    """What vague words of time mean in this collection."""
    return settings.date_policy(database())


def record_or_404(kind: type[Record], id: int) -> Record:
    """Return a record, or end the request with 404; to visitors, what is put away is not there."""
    try:
        record = load(database(), kind, id)
    except NotFound:
        abort(404)
    return abort(404) if record.put_away and not is_member() else record


def quilts_in_view(ids: tuple[int, ...]) -> tuple[list[Quilt], Related]:
    """Return quilts found for the person asking, and what they refer to, as that person may see."""
    quilts = load_many(database(), Quilt, ids)
    related = related_to(database(), quilts)
    asking = reader()
    seen = [quilt_for(asking, quilt, related) for quilt in quilts]
    return seen, related_for(asking, related)


def quilt_in_view(id: int) -> tuple[Quilt, Related]:
    """Return a quilt and what it refers to, as the person asking may see them, or end with 404."""
    quilts, related = quilts_in_view((id,))
    if not quilts or not (quilts[0].published or is_member()):
        abort(404)
    return quilts[0], related
