"""What a few words between two commas can be: life dates, a relation, a price, a place."""

from __future__ import annotations

import re
from collections.abc import Iterator

from catalogue.provenance.splitting import depths, known_words
from catalogue.provenance.transfer_dates import could_begin_dates

__all__ = [
    "all_terms",
    "continues_name",
    "is_life",
    "is_place",
    "is_price",
    "is_relation",
    "is_stock_number",
    "lead_relation",
    "seems_dated",
    "split_agent",
    "split_clause",
    "split_groups",
    "split_terms",
    "take_notes",
]

_MARKER = r"\[(?:[0-9]{1,3}|[a-z]{1,2})\]"
_LAST_MARKERS = re.compile(rf"(?:\s*{_MARKER})+$")
_GROUP = re.compile(r"\[[^\[\]]*\]|\([^()]*\)")
_LIFE_SIGNS = re.compile(
    r"(?:[0-9?.\s–—-]|\b(?:c|ca|circa|about|b|born|d|died|active|BCE?|CE|AD)\b)+", re.IGNORECASE
)
_STOCK = re.compile(
    r"(?:stock|inventory|inv\.|lot|nos?\.|number|cat\.|catalogue|catalog|accession|acc\.)\s"
    r"(?:(?:nos?\.|number)\s?)?\S*[0-9]\S*(?:\s\S*[0-9]\S*|\sand\s\S+)*|lot\s\S+",
    re.IGNORECASE,
)
_PRICE = re.compile(
    r"(?:for\s)?(?:(?:US|C|A)?[$£€]\s?[0-9][0-9,.]*|[0-9][0-9,.]*\s?(?:dollars?|pounds?|guineas?|"
    r"cents?|shillings?|francs?|marks|USD|GBP|EUR|CAD)\b|\S+\s(?:dollars?|pounds?|cents?|guineas?))"
    r"(?:\s[^,]*)?",
    re.IGNORECASE,
)
_CLAUSE = re.compile(
    r"\s(?=(?:in|at|from|via|until|till|through|by|before|after|since|on|sometime|circa|c\.|ca\.|"
    r"about|between|as of|prior to|for)\s)|(?<=[a-z])\s(?=[0-9]{4}\??(?:\s?[-–]\s?[0-9]{2,4}\??)?$)"
)
_YEAR = re.compile(r"\b(?:1[4-9]|20)[0-9]{2}\b|[0-9]+/[0-9]+/[0-9]+|[0-9]th century")
_FOR = re.compile(r"(?P<comma>,?)\sfor\s(?=(?P<the>the\s)?(?P<next>[^\s$£€0-9]))")
_REACH = 300  # signs in which a clause is looked for; longer items are prose
_POSSESSOR = r"(?:his|her|their|the (?:artist|maker|quilter|quiltmaker|donor)[’']s)"
_OF_WHOM = r"of (?:the )?(?:previous|above|preceding|artist|maker|quilter|quiltmaker|donor)"
_RELATION_FIRST = re.compile(
    rf"(?P<relation>(?:(?i:{_POSSESSOR})\s)?(?P<kin>[a-z][\w-]*)(?:\s{_OF_WHOM})?)\s(?=[A-Z“\"(])"
)
_PLACE_WORDS = (
    "near ",
    "the ",
    "outside ",
    "formerly ",
    "rural ",
    "north ",
    "south ",
    "east ",
    "west ",
)


def take_notes(text: str) -> tuple[str, tuple[str, ...]]:
    """Return the text without the footnote and citation markers at its end, and the markers."""
    match = _LAST_MARKERS.search(text)
    if match is None:
        return text, ()
    return text[: match.start()].rstrip(), tuple(re.findall(r"\[(\w+)\]", match[0]))


def is_life(text: str) -> bool:
    """True for life dates in brackets: `[1880-1955]`, `[-1955]`, `[born 1880]`, `(1880-1955)`."""
    inner = text[1:-1].strip()
    if text[:1] + text[-1:] not in ("[]", "()"):
        return False
    if not re.search(r"[0-9]", inner) or not _LIFE_SIGNS.fullmatch(inner):
        return False
    if re.match(r"(?:b\.|born|d\.|died)\s", inner, re.IGNORECASE):
        return True
    dashed = re.search(r"[-–—]", inner) is not None
    return dashed and (text.startswith("[") or re.search(r"[0-9]{4}", inner) is not None)


def is_stock_number(text: str) -> bool:
    """True for `stock no. 10`, `no. 86` or `lot a111`."""
    return _STOCK.fullmatch(text) is not None


def is_price(text: str) -> bool:
    """True for `for $1000`, `£20` or `for 5 dollars`."""
    return _PRICE.fullmatch(text) is not None


def is_relation(text: str) -> bool:
    """True for `son of previous`, `her niece`, `the maker` and the like."""
    bare = text.removesuffix("?").strip()
    if re.fullmatch(r"the (?:artist|maker|quilter|quiltmaker)", bare, re.IGNORECASE):
        return True
    words = bare.split()
    if not words:
        return False
    own = re.match(rf"{_POSSESSOR}\s", bare, re.IGNORECASE)
    return (words[0].lower() in known_words("relations") and not bare[0].isupper()) or (
        own is not None and any(word.lower() in known_words("relations") for word in words)
    )


def lead_relation(text: str) -> tuple[str, str]:
    """Split `his daughter Sally Moe` into the relation and the name; ("", text) if none leads."""
    match = _RELATION_FIRST.match(text)
    if match is None or match["kin"] not in known_words("relations"):
        return "", text
    return match["relation"], text[match.end() :]


def continues_name(name: str, text: str) -> bool:
    """True where the words after a comma still belong to the name before it.

    A suffix (Jr., Inc.), a title with "of" (Baroness of Leeds), or the organisation that a
    department belongs to.
    """
    words = text.removesuffix("?").split()
    if not words:
        return False
    if len(words) == 1 and words[0].replace(".", "") in known_words("suffixes"):
        return True
    ordinal = re.fullmatch(r"[0-9]+(?:st|nd|rd|th)", words[0])
    title = words[1] if ordinal and len(words) > 1 else words[0]
    if title in known_words("titles") and "of" in words:
        return True
    part = re.match(r"(?:Department|Dept\.|Office|Board|Trustees|Division)\b", name) is not None
    owner = any(word in known_words("parents") for word in words)
    return (part and _organised(text)) or (owner and _organised(name))


def is_place(text: str) -> bool:
    """True where the words can be (part of) a place: no small first letter, and short."""
    if not text or len(text) > 60 or not any(letter.isalnum() for letter in text):
        return False
    return not (text[0].islower() or text[0] in "([") or text.lower().startswith(_PLACE_WORDS)


def seems_dated(text: str) -> bool:
    """True where the words begin like a date and hold a year or a date in figures."""
    return could_begin_dates(text) and _YEAR.search(text) is not None


def split_agent(text: str, has_method: bool) -> tuple[str, bool, str] | None:
    """Return agent, whether a comma follows, and party of `John Doe, Boise, for Sally Moe`.

    Without a comma an organisation (Society for ...) keeps its "for", and so does a text in which
    no method stands before the name.
    """
    depth = depths(text)
    for match in _FOR.finditer(text):
        before, after = text[: match.start()].strip(), text[match.end() :]
        loose = not match["comma"] and (not has_method or match["the"] or _organised(before))
        named = (
            match["next"].isupper() or is_relation(after.split(",")[0]) or lead_relation(after)[0]
        )
        if before and not depth[match.start()] and not loose and (named or match["the"]):
            return before, bool(match["comma"]), after
    return None


def split_clause(text: str) -> tuple[str, str]:
    """Return the words before and from a clause inside (`Boston in 1937`); ("text", "") if none."""
    depth = depths(text[:_REACH])
    for match in _CLAUSE.finditer(text, 0, _REACH):
        head, tail = text[: match.start()], text[match.end() :]
        if head and not depth[match.start()] and _is_clause(head, tail):
            return head.rstrip(), tail
    return text, ""


def _is_clause(head: str, tail: str) -> bool:
    word, _, rest = tail.partition(" ")
    if word[0].isdigit():
        return head.split()[-1][0].isupper()
    if word in ("via", "from"):
        return bool(rest)
    if word == "for":
        return is_price(tail)
    if word == "at":
        return rest[:1] in '"“' or (rest[:1].isupper() and not _organised(head))
    if word == "in" and rest[:1].isupper():
        return True
    return could_begin_dates(rest) and re.search(r"[0-9]", rest) is not None


def _organised(text: str) -> bool:
    return any(word in known_words("organisations") for word in text.split())


def split_groups(text: str) -> Iterator[str]:
    """Yield the words, and life dates or terms in brackets as pieces of their own."""
    start = 0
    for match in _GROUP.finditer(text):
        at_end = not text[match.end() :].strip()
        if is_life(match[0]) or (at_end and match[0][0] == "(" and all_terms(match[0][1:-1])):
            yield text[start : match.start()].strip()
            yield match[0]
            start = match.end()
    yield text[start:].strip()


def all_terms(inside: str) -> bool:
    """True where everything between the parentheses is a stock number or a price."""
    parts = split_terms(inside)
    return bool(parts) and all(is_stock_number(part) or is_price(part) for part in parts)


def split_terms(inside: str) -> list[str]:
    """Split `stock no. 10, for $1,000` at its comma, not inside the sum."""
    parts = re.split(r";|,(?![0-9]{3}(?![0-9]))", inside)
    return [part.strip() for part in parts if part.strip()]
