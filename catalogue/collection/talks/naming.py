"""What people type to say what an item of a talk is about, and back."""

from __future__ import annotations

from typing import Any

from catalogue.collection.records import TalkItem
from catalogue.collection.register import Kind, Register
from catalogue.collection.talks.programme import SUBJECTS, kind_of

_REGISTERED = {
    "quilt": Kind.QUILT,
    "pattern": Kind.PATTERN,
    "publication": Kind.PUBLICATION,
    "person": Kind.PARTY,
    "related material": Kind.RELATED_ITEM,
}
_FIELD = {words: name for name, (_, words) in SUBJECTS.items()}


def item_named(register: Register, kind: str, typed: str) -> TalkItem | None:
    """Return an item of this kind by its name, number or words; None where nothing is so called."""
    if kind == "heading":
        return TalkItem(typed)
    if kind == "borrowed quilt":
        return TalkItem(typed, borrowed=True)
    id = register.find(_REGISTERED[kind], typed)
    about: dict[str, Any] = {_FIELD[kind]: id}
    return TalkItem(**about) if id is not None else None


def name_of(register: Register, item: TalkItem) -> str:
    """Return what `item_named` takes for this item."""
    kind = kind_of(item)
    if kind in _REGISTERED:
        return register.label_of(_REGISTERED[kind], getattr(item, _FIELD[kind]))
    return item.words


def names_to_offer(register: Register) -> list[str]:
    """Return every name on record that an item can be about."""
    return [name for kind in _REGISTERED.values() for name in register.labels(kind)]
