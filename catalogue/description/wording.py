"""English for descriptions: articles, lists, numbers and sizes, from text as people type it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from catalogue.description.quilt_facts import Inches
from catalogue.values.lengths import format_inches, format_length

__all__ = [
    "article",
    "clean",
    "counted",
    "listed",
    "number_word",
    "ordinal",
    "quoted_lines",
    "sentence",
    "size",
    "sizes",
]

# fmt: off
_ORDINALS = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
)
_NUMBERS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
)
# fmt: on
_SAID_WITH_CONSONANT = ("one-", "one ", "uni", "use", "eur", "once")


def clean(text: str) -> str:
    """Return the text on one line, without a full stop or other separator at its ends."""
    return " ".join(text.split()).strip(" .;:,")


def article(words: str) -> str:
    """Return the words with "a" or "an" before them, as they are said aloud."""
    lowered = words.lower()
    vowel = lowered[:1] in "aeiou" and not lowered.startswith(_SAID_WITH_CONSONANT)
    vowel = vowel or re.match(r"8|1[18](?!\d)", lowered) is not None
    return f"{'an' if vowel else 'a'} {words}"


def listed(words: Sequence[str]) -> str:
    """Join words as English lists them: a; a and b; a, b and c."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def counted(number: int, one: str, many: str = "") -> str:
    """Return a number in figures with its noun: 1 block, 30 blocks."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def number_word(number: int) -> str:
    """Return a number in words up to ten, in figures beyond."""
    return _NUMBERS[number] if number < len(_NUMBERS) else str(number)


def ordinal(number: int) -> str:
    """Return first, second, ... and figures beyond ten."""
    return _ORDINALS[number - 1] if number <= len(_ORDINALS) else f"{number}th"


def sentence(words: str) -> str:
    """Return the words with a capital, a full stop, and no space or comma too many."""
    words = " ".join(words.split()).rstrip(" ,")
    ended = words.endswith((".", "!", "?", ".”", "!”", "?”", "…”"))
    return words[:1].upper() + words[1:] + ("" if ended else ".")


def size(inches: Inches) -> str:
    """Return one size in inches and, in brackets, centimetres: 2 1/2 inches (6.4 cm)."""
    printed = format_inches(inches)
    unit = "inch" if inches <= 1 else "inches"
    return f"{printed} {unit} ({format_length(inches, 'cm')})"


def sizes(first: tuple[Inches, str], second: tuple[Inches, str]) -> str:
    """Return two named sizes: 90 1/2 inches in length x 92 inches in width (229.9 x 233.7 cm)."""
    (one, one_name), (two, two_name) = first, second
    centimetres = format_length(one, "cm").removesuffix(" cm"), format_length(two, "cm")
    return (
        f"{format_inches(one)} inches in {one_name} x {format_inches(two)} inches in {two_name} "
        f"({' x '.join(centimetres)})"
    )


def quoted_lines(text: str) -> str:
    """Return words verbatim in quotation marks, their line breaks as strokes."""
    lines = [" ".join(line.split()) for line in text.strip().splitlines()]
    return f"“{' / '.join(line for line in lines if line)}”"
