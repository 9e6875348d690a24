"""Names of people as records write them: their parts, display and sorting forms.

Whether two written names may be one person is judged in `catalogue.values.name_likeness`.
"""

from __future__ import annotations

import csv
import re
import unicodedata
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

__all__ = [
    "PersonName",
    "PersonNameError",
    "fold",
    "given_name_roots",
    "parse_name",
]

# fmt: off
_TITLES = frozenset(
    (
        "mr", "mrs", "ms", "miss", "mme", "mlle", "dr", "rev", "revd", "fr", "sr", "prof", "hon",
        "capt", "captain", "col", "gen", "lt", "maj", "sgt", "sir", "lady", "dame", "lord",
        "judge", "elder", "deacon", "sister", "brother", "aunt", "uncle", "grandma",
        "grandmother", "granny",
    )
)
_SUFFIXES = frozenset(
    (
        "jr", "sr", "esq", "ii", "iii", "iv", "v", "md", "phd", "dd", "jnr", "snr",
    )
)
_PARTICLES = frozenset(
    (
        "van", "von", "der", "den", "de", "du", "del", "della", "di", "da", "la", "le", "les",
        "st", "st.", "ten", "ter", "zu", "zum", "af", "av",
    )
)
# fmt: on
_BORN_AS = re.compile(
    r"[,\s]*\(?\b(?:née|nee|born|formerly)\s+(?P<surname>[^,;()]+)\)?", re.IGNORECASE
)
_NICKNAME = re.compile(r"[\"“”„](?P<nickname>[^\"“”„]+)[\"“”]")
_PARENTHESIS = re.compile(r"\((?P<inside>[^()]+)\)")


class PersonNameError(ValueError):
    """A text in which there is no name; its message is one sentence."""


@dataclass(frozen=True)
class PersonName:
    """A person's name in parts, each "" where the record does not give it.

    `birth_surname` is the surname before marriage; `husband` the given name of a husband by whose
    name she is called ("Mrs. Amos Thornbury (Eliza Pell)").
    """

    given: str = ""
    surname: str = ""
    birth_surname: str = ""
    nickname: str = ""
    title: str = ""
    suffix: str = ""
    husband: str = ""
    written: str = field(default="", compare=False)

    def __str__(self) -> str:
        return self.display

    @property
    def display(self) -> str:
        """The name in reading order: Mrs. Eliza "Liza" (Pell) Thornbury."""
        birth = f"({self.birth_surname})" if self.birth_surname else ""
        if self.husband:
            own = _join(self.given, self._quoted, self.birth_surname)
            return _join(self.title, self.husband, self.surname, f"({own})" if own else "")
        name = _join(self.title, self.given, self._quoted, birth, self.surname)
        return f"{name}, {self.suffix}" if self.suffix else name

    @property
    def sorting(self) -> str:
        """The name as an index files it: Thornbury, Eliza (Pell), Mrs."""
        birth = f"({self.birth_surname})" if self.birth_surname else ""
        parts = (
            self.surname or self.given,
            _join(self.given if self.surname else "", self._quoted, birth),
            self.suffix,
            _join(self.title, self.husband),
        )
        return ", ".join(part for part in parts if part)

    @property
    def birth_form(self) -> str:
        """Given name and surname at birth; "" where that surname is not known."""
        return _join(self.given, self.birth_surname) if self.birth_surname else ""

    @property
    def married_form(self) -> str:
        """Given name and present surname, without title, nickname or surname at birth."""
        return _join(self.given, self.surname)

    @property
    def may_be_husbands(self) -> bool:
        """True where the given name after "Mrs." may be the husband's."""
        return fold(self.title) == "mrs" and not (self.husband or self.birth_surname)

    @property
    def _quoted(self) -> str:
        return f'"{self.nickname}"' if self.nickname else ""


def parse_name(text: str) -> PersonName:
    """Return the parts of a name written directly or inverted, with `text` kept as written.

    A lone word is a given name unless a title stands before it. A word in parentheses is a
    nickname where it is a known short form of the given name, else the surname at birth.
    Raises PersonNameError where there is no letter at all.
    """
    written = " ".join(text.split())
    if not any(letter.isalpha() for letter in written):
        raise PersonNameError(f'"{text}" has no name in it.')
    rest, birth = _take(_BORN_AS, written)
    rest, nickname = _take(_NICKNAME, rest)
    ends_in_parenthesis = rest.rstrip().endswith(")")
    rest, inside = _take(_PARENTHESIS, rest)
    title, given, surname, suffix = _main_parts(rest)
    husband = ""
    if inside and ends_in_parenthesis and fold(title) == "mrs" and "," not in rest:
        husband = given
        given, birth = _own_name(inside, birth)
    elif inside and not nickname and _is_short_form(inside, given):
        nickname = inside
    elif inside:
        birth = birth or inside
    return PersonName(given, surname, birth, nickname, title, suffix, husband, written)


def _take(pattern: re.Pattern[str], text: str) -> tuple[str, str]:
    """Return the text without the first match, and what the match's group held."""
    match = pattern.search(text)
    if match is None:
        return text, ""
    return _join(text[: match.start()], text[match.end() :]), match[1].strip()


def _own_name(inside: str, birth: str) -> tuple[str, str]:
    """Split "Eliza Pell" into given name and surname at birth; a lone word is the given name."""
    words = inside.split()
    if birth or len(words) == 1:
        return inside, birth
    return " ".join(words[:-1]), words[-1]


def _main_parts(text: str) -> tuple[str, str, str, str]:
    """Return title, given name, surname and suffix of a direct or an inverted name."""
    first, *others = [part.strip() for part in text.split(",") if part.strip()] or [""]
    suffixes = [part for part in others if _plain(part) in _SUFFIXES]
    others = [part for part in others if part not in suffixes]
    title, words, suffix = _strip_titles(first.split())
    suffixes = [suffix, *suffixes] if suffix else suffixes
    if not others:
        given, surname = _split_direct(words, bool(title))
        return title, given, surname, ", ".join(suffixes)
    more, given_words, ending = _strip_titles(" ".join(others).split())
    trailing = [word for word in given_words if _plain(word) in _TITLES]
    given = " ".join(word for word in given_words if word not in trailing)
    suffixes = [*suffixes, ending] if ending else suffixes
    return _join(title, more, *trailing), given, " ".join(words), ", ".join(suffixes)


def _strip_titles(words: list[str]) -> tuple[str, list[str], str]:
    """Return leading titles, the words between, and a suffix at the end."""
    start = 0
    while start < len(words) and _plain(words[start]) in _TITLES:
        start += 1
    has_suffix = len(words) > start + 1 and _plain(words[-1]) in _SUFFIXES
    end = len(words) - 1 if has_suffix else len(words)
    return " ".join(words[:start]), words[start:end], words[-1] if has_suffix else ""


def _split_direct(words: list[str], titled: bool) -> tuple[str, str]:
    """Return given names and surname, which takes its particles (van der Berg) with it.

    That the particle files with the surname is common practice in English, no source.
    """
    if len(words) < 2:
        only = " ".join(words)
        return ("", only) if titled else (only, "")
    start = len(words) - 1
    while start > 1 and words[start - 1].lower() in _PARTICLES:
        start -= 1
    return " ".join(words[:start]), " ".join(words[start:])


def _plain(word: str) -> str:
    return word.replace(".", "").lower()


def _join(*parts: str) -> str:
    return " ".join(" ".join(parts).split())


def fold(text: str) -> str:
    """Return lower-case words without accents, possessives, hyphens or points, for comparing."""
    lowered = unicodedata.normalize("NFKD", text).casefold()
    bare = "".join(sign for sign in lowered if not unicodedata.combining(sign))
    bare = re.sub(r"['’‘ʼ]s\b", "", bare)
    bare = re.sub(r"['’‘ʼ`]", "", bare)
    return " ".join(re.findall(r"[^\W_]+", bare))


@cache
def _roots() -> dict[str, frozenset[str]]:
    """Map each folded given name to the full names it may stand for."""
    found: dict[str, set[str]] = {}
    with (Path(__file__).parent / "diminutives.csv").open(encoding="utf-8", newline="") as rows:
        for row in csv.DictReader(rows):
            for form in (row["name"], *row["short_forms"].split()):
                found.setdefault(fold(form), set()).add(fold(row["name"]))
    return {form: frozenset(names) for form, names in found.items()}


def given_name_roots(given: str) -> frozenset[str]:
    """Return the folded full names the first given name may stand for: polly -> mary.

    The table of short forms, `diminutives.csv`, is common practice without a source.
    """
    first = fold(given).split(" ")[0]
    return _roots().get(first, frozenset((first,)))


def _is_short_form(short: str, given: str) -> bool:
    return bool(given) and bool(_roots().get(fold(short), frozenset()) & given_name_roots(given))
