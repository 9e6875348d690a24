"""Provenance printed in the standard's notation, from the fields and never from the text.

The order of a period (Art Tracks digital provenance standard v0.2, CC0):
`[Possibly] [method] [agent for] party[?] [birth-death], place[?], from "Event", seller's agent,
in transfer place, dates (stock no. 10, for $1000) [1][a]`, then `;` or `.`.

A layout is the elements' names in the order written, with a comma before a name where a comma
stands before the element. Variants: `Hedge` and `Method` begin with a capital; `agent+` has a
comma before its "for"; `sale@` says "at" for "from", `sale“` has curly quotation marks; `giver`
and its like name the seller's agent before the party ("gift of Ann Lowe to", `giver@` "bought from
Ann Lowe by", `giver=` "by descent from Ann Lowe to"); `stock` and `price` stand by themselves,
`terms` holds both in parentheses; `(` and `)` enclose a dealer.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from catalogue.provenance.periods import UNKNOWN_PARTY, Note, Period, Provenance
from catalogue.provenance.splitting import split_periods

__all__ = ["print_period", "print_provenance"]

# fmt: off
_ORDER = (
    "(", "hedge", "method", "agent", "party", "life", ",relation", ",place", ",sale", ",transfer",
    ",dates", ",unread", "terms", ")", "notes",
)
# fmt: on
_SAME = {"stock": "terms", "price": "terms", "giver": "sale"}


def print_provenance(provenance: Provenance) -> str:
    """Return the whole text: the paragraph of periods, then the notes under their headings."""
    signs = [";" if period.direct_transfer else "." for period in provenance.periods]
    signs[-1:] = [provenance.ending] if signs else []
    opens = [True, *(sign != ";" for sign in signs)]
    words = [print_period(*pair) for pair in zip(provenance.periods, opens, strict=False)]
    closed = (
        text + _closing(text, sign, after)
        for text, sign, after in zip(words, signs, [*words[1:], ""], strict=False)
    )
    return "\n\n".join(filter(None, (" ".join(closed), *_sections(provenance.notes))))


def _closing(words: str, sign: str, after: str) -> str:
    """Return the sign, or "" where the point of a closing abbreviation serves as the period."""
    if sign == "." and words.endswith("."):
        stands_alone = not after or len(split_periods(f"{words} {after}")) > 1
        return "" if stands_alone else sign
    return sign


def _sections(notes: Iterable[Note]) -> Iterator[str]:
    for heading, entries in groupby(notes, key=lambda note: note.heading):
        yield "\n".join((f"{heading}:", *(_entry(note) for note in entries)))


def _entry(note: Note) -> str:
    marker = f"[{note.marker}]{'.' * note.pointed} " if note.marker else ""
    return (marker + note.text).rstrip()


def print_period(period: Period, opens_sentence: bool = True) -> str:
    """Return one period without its closing sign.

    A method or "possibly" at its head takes a capital where it opens a sentence, unless the
    period's layout says how it was written.
    """
    texts = _texts(period)
    unread = iter(period.unread)
    words = ""
    for slot in _slots(period, texts):
        name = slot.lstrip(",")
        text = next(unread, "") if name == "unread" else texts.get(name, "")
        if not words.strip("(") and not period.layout and opens_sentence:
            text = _opening(text, name)
        words = words + text if name == ")" else _joined(words, text, slot.startswith(","))
    return words


def _opening(text: str, name: str) -> str:
    is_word = name in ("hedge", "method") or text == UNKNOWN_PARTY.lower()
    return text[:1].upper() + text[1:] if is_word else text


def _joined(words: str, text: str, comma: bool) -> str:
    if not text or not words or words == "(" or words.endswith(" ("):
        return words + text
    return f"{words}, {text}" if comma else f"{words} {text}"


def _texts(period: Period) -> dict[str, str]:
    """Return the words of every element and variant, "" where the field is not set."""
    hedge = period.hedge if period.possibly else ""
    agent = period.agent
    texts = {
        "hedge": hedge,
        "Hedge": hedge[:1].upper() + hedge[1:],
        "method": period.method,
        "Method": period.method[:1].upper() + period.method[1:],
        "agent": f"{agent} for" if agent else "",
        "agent+": f"{agent}, for" if agent else "",
        "giver": f"{period.seller_agent} to" if period.seller_agent else "",
        "giver@": f"{period.seller_agent} by" if period.seller_agent else "",
        "giver=": f"from {period.seller_agent} to" if period.seller_agent else "",
        "party": _doubted(period, "party", period.party or UNKNOWN_PARTY),
        "life": f"[{period.life}]" if period.life else "",
        "relation": _doubted(period, "relation", period.relation),
        "place": _doubted(period, "place", period.place),
        "transfer": _doubted(period, "transfer_place", _led("in", period.transfer_place)),
        "dates": period.dates.phrase,
        "notes": "".join(f"[{marker}]" for marker in period.notes),
        "(": "(" if period.dealer else "",
        ")": ")" if period.dealer else "",
    }
    return texts | _sale_texts(period) | _term_texts(period)


def _doubted(period: Period, element: str, text: str) -> str:
    return f"{text}?" if text and element in period.doubtful else text


def _led(word: str, text: str) -> str:
    return f"{word} {text}" if text else ""


def _sale_texts(period: Period) -> dict[str, str]:
    agent = _doubted(period, "seller_agent", period.seller_agent)
    straight, curly = (
        ", ".join(filter(None, (period.event and f"{left}{period.event}{right}", agent)))
        for left, right in ('""', "“”")
    )
    return {
        "sale": _led("from", straight),
        "sale“": _led("from", curly),
        "sale@": _led("at", straight),
        "sale@“": _led("at", curly),
    }


def _term_texts(period: Period) -> dict[str, str]:
    """Return stock number and price, in the parentheses only what does not stand by itself."""
    alone = {slot.lstrip(",") for slot in period.layout.split()}
    terms = {"stock": period.stock_number, "price": period.price}
    together = ", ".join(text for name, text in terms.items() if text and name not in alone)
    return terms | {"terms": f"({together})" if together else ""}


def _slots(period: Period, texts: dict[str, str]) -> list[str]:
    """Return the slots to print: the writer's, and the rest at their place in the standard."""
    order = list(_ORDER)
    if period.method.startswith("via "):  # "Ann Lowe [1880-1955] via marriage"
        order.remove("method")
        order.insert(order.index("life") + 1, "method")
    ranks = {_element(slot): rank for rank, slot in enumerate(order)}
    slots = period.layout.split()
    for slot in order:
        name = _element(slot)
        wanted = len(period.unread) if name == "unread" else int(bool(texts[name]))
        for _ in range(wanted - [_element(other) for other in slots].count(name)):
            before = [i for i, other in enumerate(slots) if ranks[_element(other)] < ranks[name]]
            slots.insert(before[-1] + 1 if before else 0, slot)
    return slots


def _element(slot: str) -> str:
    """Return the element of a slot without comma and variant."""
    name = slot.strip(",+@=“").lower()
    return _SAME.get(name, name)
