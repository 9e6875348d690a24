"""What was understood of a question, in words for the searcher."""

from __future__ import annotations

from catalogue.collection.search.questions import Part, Question
from catalogue.collection.search.spans import Span


def understood(question: Question) -> tuple[str, ...]:
    """Return one phrase for each thing that was looked for, or left out."""
    looked_for = [_part(part) for part in question.wanted]
    spans = [span for span in question.spans if not span.excluded]
    made = [" or ".join(_span(span) for span in spans)] if spans else []
    left_out = [f"without {_words(part)}" for part in question.parts if part.excluded]
    left_out += [f"not {span.says}" for span in question.spans if span.excluded]
    small = ", ".join(f"“{word}”" for word in question.passed_over)
    return (*looked_for, *made, *left_out, *([f"{small} passed over"] if small else []))


def _part(part: Part) -> str:
    if part.field is not None:
        return f"{_words(part)} in the field {part.field}"
    return _words(part)


def _words(part: Part) -> str:
    return f"words that begin with “{part.text}”" if part.beginning else f"“{part.text}”"


def _span(span: Span) -> str:
    return f"{span.says}, or “{span.words}” in the text" if span.words else span.says
