"""Advice on label texts from published guidance: length, sentences, lines, type and contrast.

It advises and changes nothing: a text is never cut.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar, Literal

from catalogue.exhibits.contrast import contrast_ratio
from catalogue.exhibits.findings import counted
from catalogue.exhibits.rules import Rule, RuleSet, read_rules
from catalogue.exhibits.sentences import sentences, words

Weight = Literal["change this", "better"]


@dataclass(frozen=True)
class LabelRules(RuleSet):
    """Limits for label texts; the table says what each is and where it comes from."""

    table: ClassVar[tuple[Rule, ...]] = read_rules("label_rules.csv")

    most_words: Fraction
    better_words: Fraction
    most_in_sentence: Fraction
    better_in_sentence: Fraction
    most_in_line: Fraction
    better_in_line: Fraction
    least_point: Fraction
    least_contrast: Fraction


DEFAULT_LABEL_RULES = LabelRules.defaults()
"""The table's own figures."""


@dataclass(frozen=True, slots=True)
class Advice:
    """One thing to change about a label, with the figure found, the limit and its source.

    `weight` is "change this" where a limit is passed and "better" where only the better figure
    is; `passage` quotes the sentence or line concerned, "" where it is the whole text.
    """

    kind: str
    weight: Weight
    says: str
    figure: float
    limit: float
    source: str
    passage: str = ""


def advise(
    text: str,
    *,
    point: float | None = None,
    line: int | None = None,
    ink: str | None = None,
    paper: str | None = None,
    rules: LabelRules = DEFAULT_LABEL_RULES,
) -> tuple[Advice, ...]:
    """What to change about a label text; nothing where it follows the guidance.

    `point` is its type, `line` the characters of its longest line as set, `ink` and `paper` its
    colours as #rrggbb; what is not given is not judged. Raises ColourError for no colour.
    """
    found = [*_length(text, rules), *_sentences(text, rules)]
    if line is not None:
        found += _line(line, rules)
    if point is not None and point < rules.least_point:
        found.append(
            _advice(
                "type",
                "least_point",
                rules,
                point,
                f"The type is {point:g} point; on a wall nothing under"
                f" {float(rules.least_point):g} point is read with ease.",
            )
        )
    if ink is not None and paper is not None:
        found += _contrast(ink, paper, rules)
    return tuple(found)


def _length(text: str, rules: LabelRules) -> Iterator[Advice]:
    count = len(words(text))
    said = f"The text has {counted(count, 'word')}"
    if count > rules.most_words:
        told = f"{said}; a label has at most {float(rules.most_words):g}."
        yield _advice("length", "most_words", rules, count, told)
    elif count > rules.better_words:
        told = f"{said}; {float(rules.better_words):g} are better."
        yield _advice("length", "better_words", rules, count, told)


def _sentences(text: str, rules: LabelRules) -> Iterator[Advice]:
    for sentence in sentences(text):
        count = len(words(sentence))
        said = f"The sentence that begins “{_opening(sentence)}” has {counted(count, 'word')}"
        if count > rules.most_in_sentence:
            told = f"{said}; at most {float(rules.most_in_sentence):g} are read with ease."
            yield _advice("sentence", "most_in_sentence", rules, count, told, sentence)
        elif count > rules.better_in_sentence:
            told = f"{said}; {float(rules.better_in_sentence):g} are better."
            yield _advice("sentence", "better_in_sentence", rules, count, told, sentence)


def _line(characters: int, rules: LabelRules) -> Iterator[Advice]:
    said = f"The longest line has {counted(characters, 'character')}"
    if characters > rules.most_in_line:
        told = f"{said}; at most {float(rules.most_in_line):g} are read with ease."
        yield _advice("line", "most_in_line", rules, characters, told)
    elif characters > rules.better_in_line:
        told = f"{said}; 45 to {float(rules.better_in_line):g} are better."
        yield _advice("line", "better_in_line", rules, characters, told)


def _contrast(ink: str, paper: str, rules: LabelRules) -> Iterator[Advice]:
    ratio = contrast_ratio(ink, paper)
    if ratio < rules.least_contrast:
        told = (
            f"The contrast of {ink} on {paper} is {int(ratio * 100) / 100:g} to 1; at least"
            f" {float(rules.least_contrast):g} to 1 is wanted."
        )
        yield _advice("contrast", "least_contrast", rules, ratio, told)


def _advice(
    kind: str, key: str, rules: LabelRules, figure: float, says: str, passage: str = ""
) -> Advice:
    weight: Weight = "better" if key.startswith("better") else "change this"
    limit = float(getattr(rules, key))
    return Advice(kind, weight, says, figure, limit, rules.rule(key).source, passage)


def _opening(sentence: str) -> str:
    first = sentence.split()[:5]
    return " ".join(first).rstrip(".,;:!?") + (" …" if len(sentence.split()) > 5 else "")


# The average letter of running text, as a part of the size of type: half is the usual rule of
# thumb; J. K. Korpela puts English prose nearer to 0.4 (answer on estimating characters a line).
_NARROW, _USUAL, _WIDE = 0.40, 0.45, 0.50


@dataclass(frozen=True, slots=True)
class LineEstimate:
    """Characters that go into a line, with the least and the most that typefaces make of it."""

    characters: int
    least: int
    most: int
    grounds: str


def line_length_at(width: float, point: float) -> LineEstimate:
    """How many characters go into a line `width` inches wide in type of that size: an estimate.

    Typefaces differ by a quarter; count the line as set where it matters. Raises ValueError
    unless both are positive.
    """
    if not (width > 0 and point > 0):
        raise ValueError(f"A line of {width:g} in at {point:g} point holds no text.")
    ems = width * 72 / point
    return LineEstimate(
        int(ems / _USUAL),
        int(ems / _WIDE),
        int(ems / _NARROW),
        "An estimate: letters of running text are on average 0.4 to 0.5 of the size of type wide"
        " (rule of thumb; faces differ).",
    )
