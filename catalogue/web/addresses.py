"""What stands in an address, read with care: anything may be written there."""

from __future__ import annotations

from werkzeug.datastructures import MultiDict

from catalogue.collection.search.finding import SORTS, Wanted
from catalogue.collection.vocabulary import STATUSES

_LONGEST_QUESTION = 300


def whole_number(text: str | None, largest: int = 10**9) -> int | None:
    """Return the whole number written, or None for anything else."""
    if text and text.isascii() and text.isdigit() and len(text) <= 10 and int(text) <= largest:
        return int(text)
    return None


def wanted_from(arguments: MultiDict[str, str], default_sort: str = "fit") -> Wanted:
    """Return what an address asks for; whatever means nothing is passed over."""
    sort = arguments.get("sort", default_sort)
    status = arguments.get("status", "")
    return Wanted(
        words=arguments.get("q", "").strip()[:_LONGEST_QUESTION],
        from_year=whole_number(arguments.get("from"), 9999),
        to_year=whole_number(arguments.get("to"), 9999),
        pattern=whole_number(arguments.get("pattern")),
        maker=whole_number(arguments.get("maker")),
        publication=whole_number(arguments.get("publication")),
        status=status if status in STATUSES else "",
        sort=sort if sort in SORTS else default_sort,
    )
