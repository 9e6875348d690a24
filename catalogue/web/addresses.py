"""What stands in an address, read with care: anything may be written there."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlsplit

from werkzeug.datastructures import MultiDict
from werkzeug.routing import IntegerConverter

from catalogue.collection.search.facets import DISPLAYED, LABELS, NOT_DISPLAYED, NUMBERED
from catalogue.collection.search.finding import SORTS, Wanted

_LONGEST_QUESTION = 300
_MOST_VALUES, _LONGEST_VALUE = 40, 200


class RecordNumber(IntegerConverter):
    """An id in an address: plain figures, no more of them than the database can hold."""

    regex = "[0-9]{1,15}"


def whole_number(text: str | None, largest: int = 10**9) -> int | None:
    """Return the whole number written, or None for anything else."""
    if text and text.isascii() and text.isdigit() and len(text) <= 10 and int(text) <= largest:
        return int(text)
    return None


def own_page(address: str) -> str:
    """Return an address if it is a page of this catalogue, and nothing if it leads elsewhere.

    Browsers leave control characters out and take a backslash for a slash (url.spec.whatwg.org), so
    that what holds either is not followed.
    """
    odd = "\\" in address or any(ord(letter) < 33 or ord(letter) == 127 for letter in address)
    if odd or not address.startswith("/") or address.startswith("//"):
        return ""
    try:
        parts = urlsplit(address)
    except ValueError:
        return ""
    return "" if parts.scheme or parts.netloc else address


def wanted_from(arguments: MultiDict[str, str], default_sort: str = "fit") -> Wanted:
    """Return what an address asks for; whatever means nothing is passed over."""
    sort = arguments.get("sort", default_sort)
    first = whole_number(arguments.get("from"), 9999)
    last = whole_number(arguments.get("to"), 9999)
    if first is not None and last is not None and first > last:
        first, last = last, first
    return Wanted(
        words=arguments.get("q", "").strip()[:_LONGEST_QUESTION],
        from_year=first,
        to_year=last,
        **{name: _values(arguments, name) for name in LABELS},
        sort=sort if sort in SORTS else default_sort,
    )


def _values(arguments: MultiDict[str, str], facet: str) -> tuple[Any, ...]:
    """Return the values of a facet that an address asks for: numbers where the facet has ids."""
    given = dict.fromkeys(text.strip()[:_LONGEST_VALUE] for text in arguments.getlist(facet))
    texts = [text for text in given if text][:_MOST_VALUES]
    if facet == "display":
        return tuple(text for text in texts if text in (DISPLAYED, NOT_DISPLAYED))
    if facet not in NUMBERED:
        return tuple(texts)
    numbers = (whole_number(text) for text in texts)
    return tuple(dict.fromkeys(number for number in numbers if number is not None))
