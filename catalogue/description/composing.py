"""The written description of a quilt, one paragraph in the order in which the trade describes.

Technique, pattern and as-published name; block count and size; setting; sashing; borders;
quilting; binding; batting; backing; inscriptions; overall size. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from catalogue.description import inscribed, sentences
from catalogue.description.quilt_facts import DescriptionFacts

__all__ = ["Sentence", "compose", "compose_sentences", "moved_on"]


@dataclass(frozen=True)
class Sentence:
    """One sentence of a description and what it is about."""

    about: str
    text: str


_ORDER: tuple[tuple[str, Callable[[DescriptionFacts], str]], ...] = (
    ("technique and pattern", sentences.object_and_pattern),
    ("blocks", sentences.blocks),
    ("setting", sentences.setting),
    ("sashing", sentences.sashing),
    ("borders", sentences.borders),
    ("quilting", sentences.quilting),
    ("binding", sentences.binding),
    ("batting and backing", sentences.batting_and_backing),
    ("inscriptions", inscribed.inscriptions),
    ("overall size", sentences.overall_size),
)


def compose(facts: DescriptionFacts) -> str:
    """Return one paragraph that says everything the facts hold, and nothing of what they lack."""
    return " ".join(sentence.text for sentence in compose_sentences(facts))


def compose_sentences(facts: DescriptionFacts) -> tuple[Sentence, ...]:
    """Return the sentences of the description with what each is about."""
    written = ((about, write(facts)) for about, write in _ORDER)
    return tuple(Sentence(about, text) for about, text in written if text)


def moved_on(composed: str, facts: DescriptionFacts) -> tuple[str, ...]:
    """Return what the record says otherwise now than when `composed` was composed from it.

    The subjects of new or changed sentences, and "something left out" where a sentence of
    `composed` has no successor; empty where a description composed now would read the same.
    """
    now = compose_sentences(facts)
    kept = " ".join(composed.split())
    changed = [sentence.about for sentence in now if sentence.text not in kept]
    for sentence in now:
        kept = kept.replace(sentence.text, "", 1)
    if kept.strip() and not changed:
        changed.append("something left out")
    return tuple(changed)
