"""Which rows answer a question, and how well: posting lists gathered and scored in numpy.

Scores follow BM25 (Robertson and Zaragoza, "The Probabilistic Relevance Framework: BM25 and
Beyond", 2009) with its usual constants; a word in a title, a number, a name or a pattern weighs
more than one in running text, by house rule.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, cached_property, reduce

import numpy as np
from numpy.typing import NDArray

from catalogue.collection.privacy import Reader
from catalogue.collection.search.columns import Flags, Rows
from catalogue.collection.search.packing import POSITION_BITS, Postings
from catalogue.collection.search.questions import Part, Question
from catalogue.collection.search.searchable import FIELDS, MEMBERS_FIELDS, fields_seen
from catalogue.collection.search.segments import LAYERS
from catalogue.collection.search.snapshots import Leaf, Snapshot
from catalogue.collection.search.spans import Span
from catalogue.collection.search.vocabulary import Vocabulary
from catalogue.collection.search.words import words
from catalogue.collection.search.years import share_within, weighed

Scores = NDArray[np.float32]
Keys = NDArray[np.int64]

_DOCUMENT_SHIFT = 32

_SATURATION, _BY_LENGTH = 1.2, 0.75  # k1 and b of BM25
_INFLECTED = 0.9  # what another ending than the one typed is worth
_WEIGHTS = {
    **{"number": 4.0, "title": 3.0, "maker": 2.5, "pattern": 2.5, "donor": 2.5},
    **{"source": 1.5, "place": 1.5, "technique": 1.5, "label": 1.5, "location": 1.5},
}
_FIELDS_OF = {"public": FIELDS, "members": MEMBERS_FIELDS}


class Matching:
    """A question put to a snapshot by somebody who sees some quilts and some fields."""

    def __init__(self, snapshot: Snapshot, reader: Reader) -> None:
        self._snapshot = snapshot
        shelf = snapshot.shelf
        self._fields = {"public": frozenset(FIELDS), "members": fields_seen(reader)}
        self._layers = tuple(layer for layer in LAYERS if self._fields[layer])
        visitor = reader.is_visitor
        self.visible: Flags = shelf.alive & shelf.plain.published if visitor else shelf.alive
        self._total = int(np.count_nonzero(self.visible))

    @cached_property
    def _damping(self) -> Scores:
        """What a row's length takes from its words, against the mean of the rows one sees."""
        lengths = self._snapshot.shelf.plain.words
        mean = max(1.0, float(lengths.sum(where=self.visible)) / max(1, self._total))
        damping: Scores = _SATURATION * (1 - _BY_LENGTH + _BY_LENGTH / mean * lengths)
        return damping

    def scores(self, question: Question) -> Scores:
        """Return a score for each row, 0 where it does not answer the question."""
        scores = self.visible.astype(np.float32)
        for part in question.wanted:
            part_scores = self.part(part)
            scores = np.where(part_scores > 0, scores + part_scores, 0) * (scores > 0)
        for part in question.parts:
            if part.excluded:
                scores[self.part(part) > 0] = 0
        return self._in_years(question, scores)

    def within(self, scores: Scores, first: int | None, last: int | None) -> Scores:
        """Return the scores of those made within the years, by how much of the work lies there."""
        return weighed(scores, share_within(self._snapshot.shelf, first, last))

    def _in_years(self, question: Question, scores: Scores) -> Scores:
        wanted = [span for span in question.spans if not span.excluded]
        if wanted:
            shares, said = zip(*map(self._share_and_words, wanted), strict=True)
            scores = scores + np.where(scores > 0, reduce(np.maximum, said), 0)
            scores = weighed(scores, reduce(np.maximum, shares))
        for span in question.spans:
            if span.excluded:
                scores[self._share_and_words(span)[0] >= 0.5] = 0
        return scores

    def _share_and_words(self, span: Span) -> tuple[Scores, Scores]:
        """Return which part of each row's span is meant, all where it says so in words.

        And a score for those words, so that a record that speaks of a centennial comes before one
        that was only made then.
        """
        share = share_within(self._snapshot.shelf, span.first, span.last)
        if not span.words:
            return share, np.zeros(1, np.float32)
        said = self.part(Part(span.words))
        share[said > 0] = 1
        return share, said

    def part(self, part: Part) -> Scores:
        """Return a score for each row that has the word or phrase, 0 for the others."""
        terms = [word.term for word in words(part.text)]
        if not terms:
            return np.zeros(len(self._snapshot.shelf), np.float32)
        if part.beginning and len(terms) == 1:
            return self._beginning(terms[0], part.field)
        if len(terms) == 1:
            return self._word(terms[0], part.field)
        joined = self._word("".join(terms), part.field)  # feed-sack is written feedsack too
        return np.maximum(self._phrase(terms, part.field), joined)

    def near(self, term: str) -> list[tuple[int, int, str]]:
        """Return words spelt nearly like this one that the index holds (see `Vocabulary.near`)."""
        found = {each for layer in self._layers for each in self._vocabulary(layer).near(term)}
        return sorted(found)

    def _vocabulary(self, layer: str) -> Vocabulary:
        return self._snapshot.vocabularies[layer]

    # --- words ---------------------------------------------------------------------------------

    def _word(self, term: str, field: str | None) -> Scores:
        scores = np.zeros(len(self._snapshot.shelf), np.float32)
        for layer, written in self._with_stem_of(term):
            worth = 1.0 if written == term else _INFLECTED
            for leaf, postings in self._postings(layer, written):
                rows, kept = self._rows(leaf, postings, layer, field)
                counts = postings.counts[kept].astype(np.float32)
                weights = worth * _weights(layer)[postings.fields[kept]]
                gained = weights * counts / (counts + self._damping[rows])
                scores[rows] = np.maximum(scores[rows], gained)
        return self._rare(scores)

    def _with_stem_of(self, term: str) -> Iterator[tuple[str, str]]:
        for layer in self._layers:
            for written in self._vocabulary(layer).with_stem_of(term):
                yield layer, written

    def _beginning(self, start: str, field: str | None) -> Scores:
        scores = np.zeros(len(self._snapshot.shelf), np.float32)
        for layer in self._layers:
            for leaf in self._snapshot.leaves:
                for postings in leaf.segment.layers[layer].beginning(start):
                    rows, kept = self._rows(leaf, postings, layer, field)
                    weights = _weights(layer)[postings.fields[kept]]
                    scores[rows] = np.maximum(scores[rows], weights)
        return self._rare(scores)

    def _postings(self, layer: str, term: str) -> Iterator[tuple[Leaf, Postings]]:
        for leaf in self._snapshot.leaves:
            postings = leaf.segment.layers[layer].postings(term)
            if postings is not None:
                yield leaf, postings

    def _rows(
        self, leaf: Leaf, postings: Postings, layer: str, field: str | None
    ) -> tuple[Rows, Flags | slice]:
        """Return the rows of a posting list that count, and which of its entries they are."""
        rows = leaf.rows[postings.ids]
        kept = rows >= 0
        bits = self._bits(layer, field)
        if bits is not None:
            kept &= (postings.fields & bits) > 0
        return rows[kept], kept

    def _bits(self, layer: str, field: str | None) -> int | None:
        """Return the bits of the fields that are looked in, None where it is all of them."""
        fields = _FIELDS_OF[layer]
        seen = self._fields[layer]
        if field is None and len(seen) == len(fields):
            return None
        wanted = (name for name in fields if name in seen and field in (None, name))
        return sum(1 << fields.index(name) for name in wanted)

    def _rare(self, scores: Scores) -> Scores:
        """Return the scores of visible rows, worth more the fewer rows have any."""
        scores[~self.visible] = 0
        found = int(np.count_nonzero(scores))
        return scores * np.float32(np.log(1 + (self._total - found + 0.5) / (found + 0.5)))

    # --- phrases -------------------------------------------------------------------------------

    def _phrase(self, terms: list[str], field: str | None) -> Scores:
        scores = np.zeros(len(self._snapshot.shelf), np.float32)
        for layer in self._layers:
            for leaf in self._snapshot.leaves:
                keys = self._first_keys(leaf, layer, terms)
                if not len(keys):
                    continue
                bits = np.left_shift(1, _fields_in(keys))
                rows = leaf.rows[keys >> _DOCUMENT_SHIFT]
                kept = rows >= 0
                wanted = self._bits(layer, field)
                if wanted is not None:
                    kept &= (bits & wanted) > 0
                np.maximum.at(scores, rows[kept], _weights(layer)[bits[kept]])
        return self._rare(scores)

    def _first_keys(self, leaf: Leaf, layer: str, terms: list[str]) -> Keys:
        """Return where the words stand in a row: document and place of the first word."""
        lists = [self._holding(leaf, layer, term) for term in terms]
        if not all(lists):
            return np.zeros(0, np.int64)
        common = np.ones(len(leaf.rows), bool)
        for postings in lists:
            common &= _documents(postings, len(leaf.rows))
        if not common.any():
            return np.zeros(0, np.int64)
        keys = _keys(lists[0], common)
        for distance, postings in enumerate(lists[1:], start=1):
            keys = keys[_among(keys + distance, _keys(postings, common))]
        return keys

    def _holding(self, leaf: Leaf, layer: str, term: str) -> list[Postings]:
        dictionary = leaf.segment.layers[layer]
        written = self._vocabulary(layer).with_stem_of(term)
        found = (dictionary.postings(each) for each in written)
        return [postings for postings in found if postings is not None]


def _documents(lists: list[Postings], count: int) -> Flags:
    held = np.zeros(count, bool)
    for postings in lists:
        held[postings.ids] = True
    return held


def _keys(lists: list[Postings], common: Flags) -> Keys:
    """Return every place of a word in these documents, the document before the place; in order."""
    keys = []
    for postings in lists:
        owners = np.repeat(postings.ids, postings.counts)
        kept = common[owners]
        keys.append(owners[kept] << _DOCUMENT_SHIFT | postings.places()[kept].astype(np.int64))
    return np.sort(np.concatenate(keys), kind="stable")  # nearly in order already


def _among(keys: Keys, ordered: Keys) -> Flags:
    """Return for each key whether it is one of those that are in order, of which there are some."""
    nearest = np.minimum(np.searchsorted(ordered, keys), len(ordered) - 1)
    found: Flags = ordered[nearest] == keys
    return found


def _fields_in(keys: Keys) -> Keys:
    return (keys & (1 << _DOCUMENT_SHIFT) - 1) >> POSITION_BITS


# --- fields ------------------------------------------------------------------------------------


@cache
def _weights(layer: str) -> Scores:
    """Return what a word is worth by the fields that hold it, for each set of fields as bits."""
    fields = _FIELDS_OF[layer]
    sets = np.arange(1 << len(fields))
    weights = np.ones(len(sets), np.float32)
    for number, name in enumerate(fields):
        held = (sets >> number & 1).astype(bool)
        weights[held] = np.maximum(weights[held], _WEIGHTS.get(name, 1.0))
    return weights
