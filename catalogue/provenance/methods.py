"""How an object passed to a party: the standard's preferred forms and the other forms in use."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

__all__ = ["Method", "ends_in_link", "find_method", "leading_method", "methods", "preferred_forms"]

_LINK = re.compile(r"\b(?:to|by|of|at|for|from|became|with)$")


@dataclass(frozen=True)
class Method:
    """One way of acquiring: its term, the form preferred in texts, and what it does.

    `category` is transfer, origination, disappearance, custody, rejoining, transformation or, for
    forms that name who gave instead of who received, giver. `owns` says whether the named party
    owns the object thereafter.
    """

    term: str
    category: str
    owns: bool
    preferred_form: str
    other_forms: tuple[str, ...]
    meaning: str
    source: str


@cache
def methods() -> tuple[Method, ...]:
    """Return the table of methods in its published order, our own additions last."""
    with (Path(__file__).parent / "methods.csv").open(encoding="utf-8", newline="") as rows:
        return tuple(
            Method(
                row["term"],
                row["category"],
                row["owns"] == "yes",
                row["preferred_form"],
                tuple(form for form in row["other_forms"].split(";") if form),
                row["meaning"],
                row["source"],
            )
            for row in csv.DictReader(rows)
        )


def preferred_forms() -> tuple[str, ...]:
    """Return the forms that the standard prefers, for lists to choose from."""
    return tuple(method.preferred_form for method in methods() if method.preferred_form)


@cache
def _by_form() -> dict[str, Method]:
    found: dict[str, Method] = {}
    for method in methods():
        for form in (method.preferred_form, *method.other_forms):
            if form:
                found.setdefault(_bare(form), method)
    return found


def _bare(form: str) -> str:
    """Return the form without comma and case, so that `bequest to` is `bequest, to`."""
    return " ".join(form.replace(",", " ").lower().split())


@cache
def _pattern() -> re.Pattern[str]:
    """Match any known form; one that does not end in a link word may take `to` or `, to`."""
    forms = sorted(_by_form(), key=len, reverse=True)
    alternatives = (
        ",? ".join(re.escape(word) for word in form.split())
        + ("" if ends_in_link(form) else "(?:,? to)?")
        for form in forms
    )
    return re.compile(rf"(?:{'|'.join(alternatives)})(?=[\s,(]|$)", re.IGNORECASE)


def ends_in_link(form: str) -> bool:
    """True where the form ends in the word that leads to the party: to, by, of."""
    return _LINK.search(form) is not None


def leading_method(text: str) -> str:
    """Return the form with which `text` begins, as written, or ""."""
    match = _pattern().match(text)
    if match is None:
        return ""
    form = match[0]
    if form.lower() == "with" and not re.match(r"[Ww]ith \(?[A-Z]", text):
        return ""
    return form


def find_method(form: str) -> Method | None:
    """Return the method a written form stands for; None where the form is not in the table."""
    bare = _bare(form)
    known = _by_form()
    return known.get(bare) or known.get(bare.removesuffix(" to"))
