"""Dates as cataloguers and museums write them, put together from their parts into EDTF.

A text is read in every way that its words allow; who asks decides what to do with more than one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import product

from catalogue.values import edtf_forms
from catalogue.values.date_marks import NO_DATE, without_marks
from catalogue.values.date_policy import DatePolicy
from catalogue.values.date_stretch import (
    Meaning,
    Stretch,
    after,
    before,
    edtf_of,
    highest,
    lowest,
)
from catalogue.values.date_text import plain
from catalogue.values.edtf_forms import DateError, quoted
from catalogue.values.edtf_guard import guarded
from catalogue.values.written_calendar import CALENDAR, FULL_DATES, completed_year
from catalogue.values.written_eras import ERAS

LONGEST_WORDS = 120
"""Characters of plain words read as a date; a longer text tells more than a date."""

_SHARED_WITH_WORDS = re.compile(r"(?:-[0-9]{4}|[0-9]{4}-[0-9]{2})[?~%]?")
"""EDTF that plain writing uses too: -1940 and 1908-12."""

_UNDATED = re.compile(rf"{NO_DATE}|\?+")


def readings(text: str, policy: DatePolicy) -> list[str]:
    """The EDTF of every way in which the text can be read; empty where it is not understood.

    Raises `DateError` where it can only be read as running backwards.
    """
    stripped = text.strip()
    shared = _SHARED_WITH_WORDS.fullmatch(stripped)
    found = [] if shared else _edtf(stripped)
    return found or _words(stripped, policy) or (_edtf(stripped) if shared else [])


def _edtf(text: str) -> list[str]:
    try:
        guarded(text)
    except DateError:
        return []
    return [text]


def _words(text: str, policy: DatePolicy) -> list[str]:
    if len(text) > LONGEST_WORDS:
        return []
    words = plain(text)
    if _UNDATED.fullmatch(words):
        return ["XXXX"]
    found = dict.fromkeys(edtf_of(meaning, policy) for meaning in _whole(words, policy))
    forward = [edtf for edtf in found if _runs_forward(edtf)]
    if found and not forward:
        raise DateError(f"{quoted(text)} runs backwards: its end comes before its beginning.")
    return forward


def names_missing_day(text: str) -> bool:
    """True where the text is a full date whose day the calendar does not have."""
    words, _ = without_marks(plain(text[:LONGEST_WORDS]))
    return any(pattern.fullmatch(words) for pattern, reader in _READERS if reader in FULL_DATES)


def _runs_forward(edtf: str) -> bool:
    try:
        edtf_forms.parse(edtf)
    except DateError:
        return False
    return True


_READERS = tuple((re.compile(pattern), reader) for pattern, reader in CALENDAR + ERAS)


def _part(words: str, policy: DatePolicy) -> list[Stretch]:
    """Every reading of a date that is written in one piece."""
    for pattern, reader in _READERS:
        found = pattern.fullmatch(words)
        stretches = reader(found, policy) if found else []
        if stretches:
            return stretches
    return []


def _whole(words: str, policy: DatePolicy) -> list[Meaning]:
    """Every reading of a whole text."""
    if part := _part(words, policy):
        return _singles(part)
    if _NUMERIC_DATE.fullmatch(words):
        return []
    rest, mark = without_marks(words)
    if rest != words:
        return [meaning.marked(mark) for meaning in _whole(rest, policy)]
    stretches = _open(words, policy) or _between(words, policy) or _bounded(words, policy)
    return _singles(stretches or _range(words, policy)) or _choice(words, policy)


_NUMERIC_DATE = re.compile(r"[0-9]+[./-][0-9]+[./-][0-9]+")
"""Three numbers are one date or none: the last of them is never a shortened year."""


def _singles(stretches: list[Stretch]) -> list[Meaning]:
    return [Meaning((stretch,)) for stretch in stretches]


def _term(words: str, policy: DatePolicy) -> list[Stretch]:
    """Every reading of one date inside a longer text."""
    if part := _part(words, policy):
        return part
    rest, mark = without_marks(words)
    return [stretch.marked(mark) for stretch in _part(rest, policy)] if rest != words else []


_BEFORE = r"before|pre|prior to|earlier than|ante|<"
_BY = (
    r"by|until|till?|up to|to|not after|(?:no|not) later than|(?:in|on|by) or before"
    r"|before or (?:in|on)|≤|<="
)
_AFTER = r"after|post|later than|subsequent to|>"
_SINCE = r"since|not before|(?:no|not) earlier than|(?:in|on|from) or after|after or (?:in|on)|≥|>="
_OPEN = re.compile(
    rf"(?:(?P<by>{_BY})|(?P<since>{_SINCE})|(?P<before>{_BEFORE})|(?P<after>{_AFTER})"
    rf"|(?P<from>from))(?=[ 0-9'<>≤≥-])[ -]?(?P<rest>.+)"
)
_OR_EARLIER = re.compile(r"(?P<rest>.+?),?(?: (?:or|and) (?:earlier|before)| at (?:the )?latest)")
_OR_LATER = re.compile(
    r"(?:from )?(?P<rest>.+?),?(?: (?:or|and) (?:later|after)| at (?:the )?earliest"
    r"| (?:and |from then )?on(?:wards?)?| forward|(?: to |-)(?:the )?(?:present|date|today)"
    r"| ?-|\+)"
)


def _open(words: str, policy: DatePolicy) -> list[Stretch]:
    """Before, by, after, since: one end known."""
    if found := _OR_EARLIER.fullmatch(words):
        return [_up_to(term, policy) for term in _term(found["rest"], policy)]
    if found := _OR_LATER.fullmatch(words):
        return [_onward(term, policy) for term in _term(found["rest"], policy)]
    found = _OPEN.fullmatch(words)
    if not found:
        return []
    terms = _term(found["rest"], policy)
    if found["before"]:
        return [_up_to(term, policy, excluded=True) for term in terms]
    if found["by"]:
        return [_up_to(term, policy) for term in terms]
    if found["after"]:
        return [_onward(term, policy, excluded=True) for term in terms]
    since = [_onward(term, policy) for term in terms]
    # "From 1935" is said of a beginning and of an origin alike.
    return since + terms if found["from"] else since


def _up_to(term: Stretch, policy: DatePolicy, excluded: bool = False) -> Stretch:
    if excluded:
        return Stretch("", before(lowest(term, policy)), "", term.start_mark)
    return Stretch("", highest(term, policy), "", term.end_mark)


def _onward(term: Stretch, policy: DatePolicy, excluded: bool = False) -> Stretch:
    if excluded:
        return Stretch(after(highest(term, policy)), "", term.end_mark, "")
    return Stretch(lowest(term, policy), "", term.start_mark, "")


_BETWEEN = re.compile(r"(?:between|betw|bet|btw) (?P<rest>.+)")
_JOINT = re.compile(r" and | to |-| & ")


def _between(words: str, policy: DatePolicy) -> list[Stretch]:
    found = _BETWEEN.fullmatch(words)
    return _spans(found["rest"], _JOINT, policy) if found else []


_BOTH_ENDS = re.compile(r",? (?:and|but) |, ?")


def _bounded(words: str, policy: DatePolicy) -> list[Stretch]:
    """After one date and before another."""
    for joint in _BOTH_ENDS.finditer(words):
        one = _open(words[: joint.start()], policy)
        two = _open(words[joint.end() :], policy)
        bounded = [b for a, c in product(one, two) for b in _met(a, c)]
        if bounded:
            return bounded
    return []


def _met(one: Stretch, two: Stretch) -> Iterator[Stretch]:
    for lower, upper in ((one, two), (two, one)):
        if not lower.end and not upper.start:
            yield Stretch(lower.start, upper.end, lower.start_mark, upper.end_mark)


_TO = re.compile(r" ?(?:-to-|--?|-?/) ?| (?:to|through|thru|until|till?|up to) ")


def _range(words: str, policy: DatePolicy) -> list[Stretch]:
    return _spans(words.removeprefix("from "), _TO, policy)


def _spans(words: str, joint: re.Pattern[str], policy: DatePolicy) -> list[Stretch]:
    """Readings as two dates with one of the joints between them."""
    for found in _joints(joint, words):
        sides = _sides([words[: found.start()], words[found.end() :]], policy)
        if all(sides):
            return [
                Stretch(one.start, two.end, one.start_mark, two.end_mark)
                for one, two in product(*sides)
            ]
    return []


def _joints(joint: re.Pattern[str], words: str) -> Iterator[re.Match[str]]:
    """Every place where the joint can be, overlapping ones too: "mid- to late" has two."""
    found = joint.search(words)
    while found:
        yield found
        found = joint.search(words, found.start() + 1)


_OR = re.compile(r",? or (?:else )?(?:in )?")
_AND = re.compile(r",? (?:and|&) (?:in )?")
_COMMA = re.compile(r", ?")


def _choice(words: str, policy: DatePolicy) -> list[Meaning]:
    """Alternatives ("or"), several dates at once ("and"), or a list that does not say which."""
    words = words.removeprefix("either ").removeprefix("both ").removeprefix("each of ")
    for joint, joined in ((_OR, ("or",)), (_AND, ("and",)), (_COMMA, ("or", "and"))):
        if joint.search(words):
            sides = _listed(joint.split(words), policy)
            if sides:
                return [Meaning(members, how) for members in product(*sides) for how in joined]
    return []


def _listed(texts: list[str], policy: DatePolicy) -> list[list[Stretch]]:
    """Readings of the members of a list; commas inside them separate further ones where needed."""
    for split in (texts, [part for text in texts for part in _COMMA.split(text)]):
        sides = _sides(split, policy)
        if all(sides):
            return sides
    return []


def _sides(texts: list[str], policy: DatePolicy) -> list[list[Stretch]]:
    """Readings of dates side by side, where the unfinished ones borrow from their neighbours.

    "June" of "June or July 1935" borrows the year behind it, "80" of "1860 to 80" the century
    before it, "14" of "June 12 to 14, 1935" both.
    """
    first, *others = texts
    texts = [first, *(_with_century(first, other) for other in others)]
    sides = [_term(text, policy) for text in texts]
    for i, text in enumerate(texts):
        if not sides[i]:
            lender = texts[-1] if i < len(texts) - 1 else first
            sides[i] = next(filter(None, (_term(t, policy) for t in _lent(text, lender))), [])
    return sides


_CENTURY = re.compile(r"[0-9]{4}(?![0-9])")
_TWO_FIGURES = re.compile(r"'?(?P<end>[0-9]{1,2})")
_BARE_DECADE = re.compile(r"(?<![0-9])'?(?P<decade>[0-9]0)(?='?s)")


def _with_century(first: str, text: str) -> str:
    """The second date completed by the century of the first: 80 after 1860, 40s after 1930s."""
    years = _CENTURY.findall(first)
    if not years:
        return text
    short = _TWO_FIGURES.fullmatch(text)
    if short:
        year = completed_year(years[-1], short["end"])
        return text if year is None else str(year)
    return _BARE_DECADE.sub(lambda m: years[-1][:2] + m["decade"], text)


def _lent(text: str, lender: str) -> Iterator[str]:
    """The unfinished text with the end, then with the beginning, of its neighbour."""
    words = lender.split(" ")
    for i in range(1, min(len(words), 8)):
        yield f"{text.rstrip('-')} {' '.join(words[i:])}"  # mid- to late 19th century
    for i in range(1, min(len(words), 8)):
        yield f"{' '.join(words[:-i])} {text}"
