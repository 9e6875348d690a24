"""A written date made plain: one spelling of blanks, dashes and points, number words as figures."""

from __future__ import annotations

import re

_ONE_SPELLING = str.maketrans(
    {
        **dict.fromkeys("‐‑‒–—―−﹘﹣－", "-"),
        **dict.fromkeys("‘’ʼ′`´", "'"),
        **dict.fromkeys("“”„″", '"'),
        **dict.fromkeys("\u00a0\u2002\u2003\u2007\u2009\u202f\u3000\t", " "),
        "⁄": "/",
        "？": "?",
        "½": "1/2",
        **{chr(0xFF10 + n): str(n) for n in range(10)},
        **dict.fromkeys("\u200b\u200e\u200f\u2060\ufeff\u00ad", ""),
    }
)


def _counted(words: str, first: int = 1, step: int = 1) -> dict[str, int]:
    return {word: first + step * n for n, word in enumerate(words.split())}


_UNITS = _counted("one two three four five six seven eight nine")
_TEENS = _counted(
    "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen", first=10
)
_TENS = _counted("twenty thirty forty fifty sixty seventy eighty ninety", first=20, step=10)
_ORDINALS = _counted(
    "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth "
    "thirteenth fourteenth fifteenth sixteenth seventeenth eighteenth nineteenth twentieth"
)
_ORDINALS["thirtieth"] = 30
_DECADES = {
    **{word.removesuffix("y") + "ies": n for word, n in _TENS.items()},
    "teens": 10,
    "tens": 10,
}


def _either(words: dict[str, int]) -> str:
    return "|".join(sorted(words, key=len, reverse=True))


_TWO_FIGURES = (
    rf"(?:(?P<tens>{_either(_TENS)})(?:[ -](?P<unit>{_either(_UNITS)}))?"
    rf"|(?P<teen>{_either(_TEENS)})|(?:oh|o|ought|aught|and)[ -](?P<low>{_either(_UNITS)}))"
)
_YEAR = re.compile(
    rf"\b(?P<century>{_either(_TEENS)}|twenty)(?:[ -]hundred(?: and)?)?[ -]{_TWO_FIGURES}\b"
    r"(?!'?s\b)"
)
_HUNDRED = re.compile(rf"\b(?P<century>{_either(_TEENS)})[ -]hundred(?P<plural>s?)\b")
_THOUSAND = re.compile(rf"\btwo thousand(?: {_TWO_FIGURES})?\b")
_DECADE = re.compile(
    rf"\b(?:(?P<century>{_either(_TEENS)}|twenty)[ -])?(?P<decade>{_either(_DECADES)})\b"
)
_ORDINAL = re.compile(rf"\b(?:(?P<tens>twenty|thirty)[ -])?(?P<last>{_either(_ORDINALS)})\b")
_ROMAN = re.compile(r"\b(?P<roman>[xvi]{1,5})(?:th)?(?=[ -]c(?:ent|entury)?\b)")
_ROMANS = {
    "xv": 15,
    "xvi": 16,
    "xvii": 17,
    "xviii": 18,
    "xix": 19,
    "xx": 20,
    "xxi": 21,
}


def plain(text: str) -> str:
    """The text in small letters, single blanks and hyphens, no brackets, numbers in figures.

    "Mid–Nineteenth-Century" gives "mid 19th century".
    """
    shown = text.translate(_ONE_SPELLING).lower()
    shown = re.sub(r"[][()]", "", shown)
    shown = re.sub(r"(?<=[a-z])\.(?=[0-9])", " ", shown)
    shown = re.sub(r"(?<=[a-z])\.", "", shown)
    shown = " ".join(shown.split()).strip(' .,;:"')
    return _figures(shown) if _HAS_WORDS.search(shown) else shown


_HAS_WORDS = re.compile(r"[a-z]{3}|x")
_COMPOUND = re.compile(
    r"(?:(?<=\bearly)|(?<=\bmid)|(?<=\blate))-(?=[0-9])|(?<=[0-9](?:st|nd|rd|th))-(?=cent)"
)


def _figures(text: str) -> str:
    text = _YEAR.sub(_year, text)
    text = _THOUSAND.sub(_thousand, text)
    text = _HUNDRED.sub(lambda m: f"{_TEENS[m['century']]}00{m['plural']}", text)
    text = _DECADE.sub(_decade, text)
    text = _ORDINAL.sub(_ordinal, text)
    text = _ROMAN.sub(_roman, text)
    return _COMPOUND.sub(" ", text)


def _year(found: re.Match[str]) -> str:
    century = _TEENS.get(found["century"], 20)
    return f"{century}{_two_figures(found):02d}"


def _thousand(found: re.Match[str]) -> str:
    return f"20{_two_figures(found):02d}"


def _two_figures(found: re.Match[str]) -> int:
    return (
        _TENS.get(found["tens"] or "", 0)
        + _UNITS.get(found["unit"] or "", 0)
        + _TEENS.get(found["teen"] or "", 0)
        + _UNITS.get(found["low"] or "", 0)
    )


def _decade(found: re.Match[str]) -> str:
    century = found["century"]
    return f"{_TEENS.get(century, 20) if century else ''}{_DECADES[found['decade']]}s"


def _ordinal(found: re.Match[str]) -> str:
    number = {"twenty": 20, "thirty": 30}.get(found["tens"] or "", 0) + _ORDINALS[found["last"]]
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{'th' if 10 < number < 20 else ending}"


def _roman(found: re.Match[str]) -> str:
    number = _ROMANS.get(found["roman"])
    return f"{number}th" if number else found[0]
