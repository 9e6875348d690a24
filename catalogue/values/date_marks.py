"""Words round a date that doubt it, or only lead to it: circa, probably, "dated", "or so"."""

from __future__ import annotations

import re

from catalogue.values.date_stretch import joined_marks

NO_DATE = (
    r"undated|n\.?d|s\.?d|no date|not dated|without (?:a )?date"
    r"|(?:date|year) (?:is )?(?:unknown|not known|undetermined|uncertain)|unknown(?: date| year)?"
)
_ABOUT = r"circa|circ|cir|cca|ca|c|about|abt|approx(?:imately)?|around|roughly|est(?:imated)?"
_DOUBT = (
    r"(?:very |most )?(?:probably|possibly|likely)|prob|poss|perhaps|maybe|presumably|presumed"
    r"|supposedly|apparently|reportedly|reputedly"
    r"|(?:said|thought|believed|supposed|reputed) to (?:be|date (?:from|to))"
)
_LEAD = (
    rf"(?:{NO_DATE})|date(?:d|s)?(?: from| to)?|dating (?:from|to)"
    r"|(?:signed|inscribed)(?: and dated)?"
    r"|(?:was )?(?:made|created|completed|finished|produced|executed|constructed)"
    r"|(?:some ?time )?(?:in|on|during|within)(?! or )|some ?time(?= (?:between|before|after))"
    r"|(?:the )?(?:year|decade(?: of)?)|the"
)
_PREFIX = re.compile(
    rf"(?:(?P<about>(?:{_ABOUT})(?=[ 0-9':,;~-])|[~≈])"
    rf"|(?P<doubt>(?:{_DOUBT})(?=[ 0-9':,;~])|\?)"
    rf"|(?:{_LEAD})(?=[ :,;]))[ :,;]*"
)
_SUFFIX = re.compile(
    r"[ ,;]*(?:(?P<both>%)|(?P<doubt>\?+"
    r"|[ ,;](?:(?:very |most )?(?:probably|possibly|likely)|perhaps|maybe|presumably"
    r"|(?:date )?uncertain))"
    r"|(?P<about>[~≈±]|[ ,;](?:circa|ca|approx(?:imately)?|or so|or thereabouts|about"
    r"|est(?:imated)?)|(?<=[0-9s?]) ?c|-?ish)"
    r"|[ ,;](?P<lead>dated|inscribed|signed))$"
)


def without_marks(words: str) -> tuple[str, str]:
    """The text without its doubts and leading words, and the EDTF mark they amount to."""
    mark = ""
    while found := _PREFIX.match(words):
        mark = joined_marks(mark, "~" if found["about"] else "?" if found["doubt"] else "")
        words = words[found.end() :]
    while found := _SUFFIX.search(words):
        more = "%" if found["both"] else "~" if found["about"] else "?" if found["doubt"] else ""
        mark = joined_marks(mark, more)
        words = words[: found.start()]
    return words, mark
