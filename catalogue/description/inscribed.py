"""The sentences on labels and inscriptions, which are quoted word for word."""

from __future__ import annotations

import re

from catalogue.description.quilt_facts import DescriptionFacts, InscriptionFacts
from catalogue.description.wording import article, clean, counted, listed, quoted_lines, sentence

__all__ = ["inscriptions"]

_MOST_QUOTED = 3  # signatures; a signature quilt may have hundreds
_PREPOSITION = re.compile(
    r"(?:on|in|at|near|along|behind|inside|under|below|above|beside|between|across|around|to|with)\b",
    re.IGNORECASE,
)


def inscriptions(facts: DescriptionFacts) -> str:
    """Quote every inscription and say where and how it stands; of many signatures only some."""
    if not facts.inscriptions:
        return "No inscription was found." if facts.inscriptions_sought else ""
    signatures = [found for found in facts.inscriptions if found.kind == "signature"]
    many = len(signatures) > _MOST_QUOTED
    single = [found for found in facts.inscriptions if not (many and found.kind == "signature")]
    told = [_inscription(found) for found in single]
    return " ".join([*told, _signatures(signatures)] if many else told)


def _inscription(found: InscriptionFacts) -> str:
    """Return `An embroidered label on the back reads “E. P. / 1876”.`"""
    kind, how, where = clean(found.kind) or "inscription", clean(found.how), clean(found.where)
    is_adjective = re.fullmatch(r"[\w-]+(?:ed|en)", how) is not None
    words = article(f"{how} {kind}" if is_adjective else kind)
    if how and not is_adjective:
        words += f" {how}" if _PREPOSITION.match(how) else f", {how},"
    if where:
        words += f" {where}{',' * (',' in where)}" if _PREPOSITION.match(where) else f" ({where})"
    if not clean(found.text):
        return sentence(f"{words} is not transcribed")
    return sentence(f"{words} reads {quoted_lines(found.text)}")


def _signatures(found: list[InscriptionFacts]) -> str:
    names = [quoted_lines(one.text) for one in found if clean(one.text)][:_MOST_QUOTED]
    among = f", among them {listed(names)}" if names else ""
    return sentence(f"It bears {counted(len(found), 'signature')}{among}")
