"""One period read from its words: first its head, then the party and what follows it."""

from __future__ import annotations

import re

from catalogue.provenance import recognising as words
from catalogue.provenance.elements import Elements, Item
from catalogue.provenance.methods import ends_in_link, find_method
from catalogue.provenance.periods import UNKNOWN_PARTY, Period
from catalogue.provenance.splitting import matching_bracket

__all__ = ["read_period"]

_HEDGES = ("possibly", "probably", "perhaps")
_LONG_NAME = 9  # words; a longer party reads like a sentence, our own judgement


def read_period(text: str, direct: bool | None) -> tuple[Period, tuple[str, ...]]:
    """Return the period that the words between two separators describe, and cautions.

    Every word of the text stands in some field; what fits nowhere stands in `unread`.
    """
    found = Elements()
    rest, notes = words.take_notes(text.lstrip(", "))
    inside, after = _head(found, rest)
    inside, notes_inside = words.take_notes(inside)
    _party_and_more(found, inside)
    found.note(notes_inside)
    if "(" in found.slots:
        found.slots.append(")")
        found.fill(after.lstrip(", "), first_comma=after.startswith(","))
        found.take_all()
    found.note(notes)
    party = found.values.pop("party", "")
    _warn(found, party, text)
    if not party:
        _make_room_for_party(found)
    period = Period(
        party=party or UNKNOWN_PARTY,
        possibly="hedge" in found.values,
        hedge=found.values.pop("hedge", _HEDGES[0]),
        dates=found.dates,
        notes=tuple(found.notes),
        doubtful=frozenset(found.doubtful),
        dealer="(" in found.slots,
        direct_transfer=direct,
        unread=tuple(found.unread),
        layout=" ".join(found.slots),
        text=text,
        **found.values,
    )
    return period, tuple(found.cautions)


def _head(found: Elements, text: str) -> tuple[str, str]:
    """Take doubt and method from the front; return what a dealer's parentheses hold, and the rest.

    Without parentheses all that is left is returned first.
    """
    text = _take_hedge(found, text)
    inside, after = _open_parentheses(found, text)
    inside = _take_hedge(found, inside)
    rest = found.put_method(Item(False, inside))
    inside = inside if rest is None else rest
    if "(" not in found.slots:
        return _open_parentheses(found, inside)
    return inside, after


def _take_hedge(found: Elements, text: str) -> str:
    first, _, rest = text.partition(" ")
    if first.lower() not in _HEDGES or not rest or "hedge" in found.values:
        return text
    found.values["hedge"] = first.lower()
    found.slots.append("Hedge" if first[0].isupper() else "hedge")
    return rest


def _open_parentheses(found: Elements, text: str) -> tuple[str, str]:
    end = matching_bracket(text) if text.startswith("(") else None
    if end is None or not text[1:end].strip() or words.is_life(text[: end + 1]):
        return text, ""
    found.slots.append("(")
    return text[1:end].strip(), text[end + 1 :].strip()


def _party_and_more(found: Elements, text: str) -> None:
    text = _take_giver(found, text)
    agent = words.split_agent(text, "method" in found.values)
    if agent is not None:
        found.values["agent"], comma, text = agent
        found.slots.append("agent+" if comma else "agent")
    relation, rest = words.lead_relation(text)
    if relation:
        found.put("relation", "relation", Item(False, relation))
        found.fill(rest)
    else:
        found.fill(text)
        _relation_before_name(found)
    found.take_party()
    found.take_all()


def _take_giver(found: Elements, text: str) -> str:
    """Take the words for who gave: "Ann Lowe to", "Ann Lowe by" or "from Ann Lowe to"."""
    form = found.values.get("method", "")
    method = find_method(form)
    names_giver = method is not None and method.category == "giver"
    if text.startswith("from ") and form:
        lead, link, slot = "from ", "to", "giver="
    elif names_giver and form.endswith("from"):
        lead, link, slot = "", "by", "giver@"
    elif names_giver:
        lead, link, slot = "", "to", "giver"
    else:
        return text
    giver = re.match(rf"{lead}(?P<giver>[^,;()\[\]\"“]+?) {link} (?=\S)", text)
    if giver is None:
        return text
    found.values["seller_agent"] = giver["giver"]
    found.slots.append(slot)
    return text[giver.end() :]


def _make_room_for_party(found: Elements) -> None:
    """Let the words for an unknown party fit between the method and the first element."""
    form = found.values.get("method", "")
    if form and not ends_in_link(form):
        found.values["method"] = f"{form} {'by' if form == 'purchased' else 'to'}"
    for place, slot in enumerate(found.slots):
        if slot in ("place", "sale", "sale@", "transfer", "dates", "stock", "price", "unread"):
            found.slots[place] = f",{slot}"
            return


def _relation_before_name(found: Elements) -> None:
    """Take `her daughter, Mary Lowe` as relation and name, where a name and no place follows.

    A name is told by the life dates behind it, or by two words with no state behind them.
    """
    texts = [*(item.text for item in found.items), "", "", ""]
    relation, name, then = texts[:3]
    if not words.is_relation(relation) or not words.is_place(name):
        return
    is_state = len(then) == 2 and then.isupper()
    if then.startswith("[") or (len(name.split()) > 1 and not is_state):
        found.put("relation", "relation", found.items.popleft())


def _warn(found: Elements, party: str, text: str) -> None:
    method = find_method(found.values.get("method", ""))
    if method is not None and method.category == "giver" and "seller_agent" not in found.values:
        form = found.values["method"]
        found.cautions.append(
            f'"{form}" names who gave; the notation names who received: gift to, purchased by.'
        )
    if not party:
        found.cautions.append(f'"{text}" names no party; "{UNKNOWN_PARTY}" is put in.')
    elif len(party.split()) > _LONG_NAME:
        found.cautions.append(f'"{party}" reads like a sentence; it is kept as the party.')
