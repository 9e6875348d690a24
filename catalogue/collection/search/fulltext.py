"""Everything that touches Whoosh: words, schema, opening, writing, and asking for ids with scores.

Whoosh unpickles its files, so a foreign index could run code: whoever opens one here has first
compared its files with the manifest in SQLite (see `indexing`).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from whoosh import index as whoosh
from whoosh.analysis import Token, Tokenizer
from whoosh.fields import NUMERIC, TEXT, Schema
from whoosh.lang.porter import stem
from whoosh.query import And, Every, Not, Or, Phrase, Prefix, Query, Term
from whoosh.searching import Searcher

from catalogue.collection.search.questions import Part, Question
from catalogue.collection.search.searchable import FIELDS

VERSION = "1"  # raise it when the schema or the words change: older indexes are then rebuilt

_WORD = re.compile(r"[^\W_]+(?:['\u2019][^\W_]+)*")
_POSSESSIVE = re.compile(r"['\u2019]s$")

_EVERYTHING = "everything"
_IN_ORDER = "in_order"


# --- words -------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Word:
    """One word of a text: the term the index knows it by, and where it stands in the text."""

    term: str
    start: int
    end: int


def words(text: str) -> list[Word]:
    """Return the words of a text; case, accents, possessives and endings make no difference."""
    return [
        Word(_term(match.group()), match.start(), match.end()) for match in _WORD.finditer(text)
    ]


@lru_cache(maxsize=50_000)
def _term(word: str) -> str:
    decomposed = unicodedata.normalize("NFKD", _POSSESSIVE.sub("", word).casefold())
    plain = "".join(c for c in decomposed if not unicodedata.combining(c))
    return str(stem(plain.replace("'", "").replace("\u2019", "")))


class _Words(Tokenizer):  # type: ignore[misc]
    """`words` as Whoosh asks for them."""

    def __call__(self, value: str, **wanted: Any) -> Iterator[Token]:
        token = Token(**{name: wanted.get(name, False) for name in ("positions", "chars")})
        for position, word in enumerate(words(value)):
            token.text = word.term
            token.pos = position + wanted.get("start_pos", 0)
            token.startchar, token.endchar = word.start, word.end
            token.boost, token.stopped = 1.0, False
            yield token


# --- the index ---------------------------------------------------------------------------------


def _schema() -> Schema:
    analyzer = _Words()
    return Schema(
        quilt=NUMERIC(int, 64, unique=True, sortable=True),
        **{
            _EVERYTHING: TEXT(analyzer=analyzer, phrase=False),
            _IN_ORDER: TEXT(analyzer=analyzer, phrase=True),
        },
        **{name: TEXT(analyzer=analyzer, phrase=True) for name in FIELDS},
    )


class Index:
    """An open index with one searcher that is kept until the next writing."""

    def __init__(self, opened: whoosh.FileIndex) -> None:
        self._index = opened
        self._searcher: Searcher = opened.searcher()

    @classmethod
    def make(cls, folder: Path) -> Index:
        """Make an empty index in an empty folder."""
        return cls(whoosh.create_in(str(folder), _schema()))

    @classmethod
    def open(cls, folder: Path) -> Index:
        """Open an index whose files are known to be our own."""
        return cls(whoosh.open_dir(str(folder)))

    def write(self, texts: Iterable[tuple[int, dict[str, str] | None]]) -> None:
        """Replace what the index holds of these quilts; None takes a quilt out of it."""
        writer = self._index.writer(limitmb=128)
        try:
            for id, text in texts:
                writer.delete_by_term("quilt", id)
                if text is not None:
                    whole = "\n".join(text.values())
                    extra = {_EVERYTHING: whole, _IN_ORDER: whole}
                    writer.add_document(quilt=id, **extra, **text)
        except BaseException:
            writer.cancel()
            raise
        writer.commit()
        # A fresh searcher: `refresh` (2.7.5) goes on showing segments that were merged away.
        self._searcher.close()
        self._searcher = self._index.searcher()

    def find(self, question: Question) -> dict[int, float]:
        """Return the ids of the quilts that answer the question, each with its score."""
        found = self._searcher.search(_query(question), limit=None)
        if not found.top_n:
            return {}
        quilt_of = self._searcher.reader().column_reader("quilt")
        return {int(quilt_of[document]): float(score) for score, document in found.top_n}

    def close(self) -> None:
        """Let go of the files."""
        self._searcher.close()
        self._index.close()


def _query(question: Question) -> Query:
    wanted = [_part(part) for part in question.parts if not part.excluded]
    refused = [_part(part) for part in question.parts if part.excluded]
    asked = And(wanted) if wanted else Every()
    return And([asked, Not(Or(refused))]) if refused else asked


def _part(part: Part) -> Query:
    terms = [word.term for word in words(part.text)]
    if len(terms) > 1:
        return Phrase(part.field or _IN_ORDER, terms)
    field = part.field or _EVERYTHING
    if part.beginning:
        return Prefix(field, terms[0])
    return Term(field, terms[0])
