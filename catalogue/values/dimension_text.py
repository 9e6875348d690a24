"""The grammar of a dimension string: numbers, units, labels, brackets and the signs between."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from catalogue.values.lengths import plain

Role = Literal["length", "width", "diameter", "depth", "d", "square"]


@dataclass(frozen=True, slots=True)
class Figure:
    """One number with its unit and label, and the sign before it: "x", "-" for a range, or none."""

    written: str
    unit: str | None
    role: Role | None = None
    sign: str = ""


@dataclass(frozen=True, slots=True)
class Statement:
    """Figures that belong together, as "H 268 x W 265.5 cm", with the words beside them."""

    label: str
    figures: tuple[Figure, ...]
    words: str = ""

    @property
    def roles(self) -> tuple[Role | None, ...]:
        """The label of each figure."""
        return tuple(figure.role for figure in self.figures)


def plain_line(text: str) -> str:
    """The text in plain small letters, with line ends as semicolons and "by" as x."""
    line = plain("; ".join(text.strip().splitlines())).lower()
    line = re.sub(r"(?<![a-z])by(?![a-z])", " x ", line)
    return " ".join(_GLUED_TIMES.sub(r"\1 x ", line).split())


def split_parts(line: str) -> list[str]:
    """The parts marked A) B) or 1) 2), in order; the whole line where there are none.

    Marks count only in sequence from the first, so that "D:" stays a label.
    """
    for marks in ("abcdefgh", "12345678"):
        parts = _split_at(line, marks)
        if len(parts) > 1:
            return parts
    return [line]


def outside_and_bracketed(line: str) -> tuple[str, list[str]]:
    """The text outside brackets and the contents of each; a bracketed label or unit stays."""
    bracketed: list[str] = []

    def take(match: re.Match[str]) -> str:
        content = match[1].strip()
        if content.rstrip(".") in _ROLE_OF or _UNIT_ALONE.fullmatch(content):
            return f" {content} "
        bracketed.append(content)
        return " "

    return _BRACKETS.sub(take, line), [content for content in bracketed if content]


def statements(line: str) -> list[Statement]:
    """The statements of the line in the order written, each with its figures labelled."""
    found: list[Statement] = []
    for label, tokens in _segments(_tokens(line)):
        words = " ".join(t.text for t in tokens if t.kind == "word" and t.text not in _NEUTRAL)
        groups = _groups(_labelled(tokens))
        found += [Statement(label, group, words) for group in groups or [()]]
    return found


@dataclass(frozen=True, slots=True)
class _Token:
    kind: str
    text: str
    unit: str | None = None


_ROLE_WORDS: dict[Role, str] = {
    "length": "height high h ht length long l lg tall",
    "width": "width wide w wd breadth",
    "diameter": "diameter diam dia ø",
    "depth": "depth deep thickness thick",
    "d": "d",
    "square": "square sq",
}
_ROLE_OF = {word: role for role, words in _ROLE_WORDS.items() for word in words.split()}
_NEUTRAL = frozenset(
    ("size", "dimensions", "dimension", "measures", "measuring", "measurements", "and")
)

_NUMBER = r"""(?:
    [0-9]{1,9}(?:-|[ ]-[ ]|[ ](?:and[ ]|&[ ])?)[0-9]{1,4}[ ]?/[ ]?[0-9]{1,4}
  | [0-9]{1,9}[ ]?/[ ]?[0-9]{1,4}
  | [0-9]{0,9}[.,][0-9]{1,12}
  | [0-9]{1,12})(?![0-9/])"""
_UNIT = r"""(?:\"|'|(?:inch(?:es)?|ins?|feet|foot|ft|yards?|yds?|centimet(?:er|re)s?|cms?
  |millimet(?:er|re)s?|mm|met(?:er|re)s?|m)(?![a-z]))"""
_TOKEN = re.compile(
    rf"""(?P<length>(?<![0-9.,/])(?:-(?=[0-9.]))?{_NUMBER}
      (?:[ ]?(?P<unit>{_UNIT})\.?(?:,?[ ]?{_NUMBER}[ ]?(?:\"|(?:ins?|inch(?:es)?)(?![a-z])))?)?)
  | (?P<alone>(?<![a-z]){_UNIT}\.?)
  | (?P<times>x(?![a-z])|\*)
  | (?P<colon>:)
  | (?P<range>-|\bto\b)
  | (?P<word>[^\W\d_][^\W\d_'-]*)
  | (?P<other>\S)""",
    re.VERBOSE,
)
_UNIT_ALONE = re.compile(rf"(?:in[ ])?{_UNIT}\.?", re.VERBOSE)
_BRACKETS = re.compile(r"[(\[]([^()\[\]]*)[)\]]")
_GLUED_TIMES = re.compile(
    r"""((?<![a-wyz])[hwld]|in|cm|mm|ft|[0-9"'.)])x(?=[ 0-9.(]|[hwld](?![a-wyz]))"""
)


def _tokens(line: str) -> Iterator[_Token]:
    for match in _TOKEN.finditer(line):
        kind = match.lastgroup or "other"
        if match["length"]:
            yield _Token("length", match["length"], match["unit"])
        elif match["alone"]:
            yield _Token("unit", match["alone"])
        elif kind == "word" and match["word"] in _ROLE_OF:
            yield _Token("role", match["word"])
        else:
            yield _Token(kind, match[0])


def _segments(tokens: Iterable[_Token]) -> Iterator[tuple[str, list[_Token]]]:
    """Cut the tokens where words and a colon open a new subject, as in "block: 12 x 12"."""
    label, current = "", list[_Token]()
    for token in tokens:
        if token.kind != "colon":
            current.append(token)
            continue
        words = _trailing_words(current)
        if words:
            if len(current) > len(words):
                yield label, current[: -len(words)]
            label, current = " ".join(words), []
    yield label, current


def _trailing_words(tokens: list[_Token]) -> list[str]:
    words: list[str] = []
    for token in reversed(tokens):
        if token.kind != "word":
            break
        words.insert(0, token.text)
    return words


def _labelled(tokens: list[_Token]) -> list[Figure]:
    """The figures with the label written before them, after them, or at the head of the line."""
    kinds = [t.kind for t in tokens if t.kind in ("role", "length")]
    if "length" not in kinds:
        return []
    figures = [f for f, _ in _with_signs(tokens)]
    if "role" not in kinds:
        return figures
    before = kinds.index("length")
    if before > 1:
        header = [_ROLE_OF[t.text] for t in tokens if t.kind == "role"][:before]
        heads: list[Role | None] = [*header, *[None] * len(figures)]
        return [replace(f, role=role) for f, role in zip(figures, heads, strict=False)]
    return _beside(tokens, before_number=before == 1)


def _beside(tokens: list[_Token], *, before_number: bool) -> list[Figure]:
    """Each figure with the label next to it, on the side this text writes its labels."""
    pairs = _with_signs(tokens)
    ends = [position for _, position in pairs]
    labelled: list[Figure] = []
    for index, (figure, position) in enumerate(pairs):
        low = ends[index - 1] if index else -1
        high = ends[index + 1] if index + 1 < len(ends) else len(tokens)
        span = tokens[low + 1 : position] if before_number else tokens[position + 1 : high]
        roles = [_ROLE_OF[token.text] for token in span if token.kind == "role"]
        labelled.append(replace(figure, role=roles[0] if roles else None))
    return labelled


def _with_signs(tokens: list[_Token]) -> list[tuple[Figure, int]]:
    """Each figure with the sign before it and its place; a unit after a label is the figure's,
    and one before all figures, as in "size in cm: 221 x 202", is that of every figure."""
    found: list[tuple[Figure, int]] = []
    sign = leading = ""
    for position, token in enumerate(tokens):
        if token.kind == "length":
            found.append((Figure(token.text, token.unit, None, sign), position))
            sign = ""
        elif token.kind == "unit" and not found:
            leading = token.text.rstrip(".")
        elif token.kind == "unit":
            found[-1] = _in_unit(found[-1][0], token.text.rstrip(".")), found[-1][1]
        elif token.kind == "times":
            sign = "x"
        elif token.kind == "range" and position and tokens[position - 1].kind == "length":
            sign = "-"
    if leading and not any(figure.unit for figure, _ in found):
        return [(_in_unit(figure, leading), position) for figure, position in found]
    return found


def _in_unit(figure: Figure, unit: str) -> Figure:
    if figure.unit is not None:
        return figure
    return replace(figure, written=f"{figure.written} {unit}", unit=unit)


def _groups(figures: list[Figure]) -> list[tuple[Figure, ...]]:
    """Figures joined by x, or by labels that differ, make one statement."""
    groups: list[tuple[Figure, ...]] = []
    for figure in figures:
        held = [f.role for f in groups[-1]] if groups else []
        joined = figure.sign or (figure.role and None not in held and figure.role not in held)
        if groups and joined:
            groups[-1] += (figure,)
        else:
            groups.append((figure,))
    return groups


def _split_at(line: str, marks: str) -> list[str]:
    starts: list[tuple[int, int]] = []
    for mark in marks:
        found = re.compile(rf"(?<![^\s;,.(])(?:part )?\(?{mark}(?:\)|:(?= ))").search(
            line, starts[-1][1] if starts else 0
        )
        if found is None or (mark in "12345678" and ":" in found[0]):
            break
        starts.append(found.span())
    if len(starts) < 2:
        return [line]
    ends = [start for start, _ in starts[1:]] + [len(line)]
    return [line[begin:end].strip() for (_, begin), end in zip(starts, ends, strict=True)]
