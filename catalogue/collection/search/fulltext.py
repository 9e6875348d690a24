"""Everything that touches Whoosh: schema, codec, writing segments, reading their dictionaries.

Whoosh keeps the dictionary, the segments and the table of contents. How a posting list lies in its
file is a codec's business, and ours writes arrays (`packing`): a list is then read in one piece and
scored in numpy, where Whoosh's own reader would make an object of every posting. Whoosh's own
search reads the same files through the same codec, and a test holds its answers equal to ours.

Whoosh unpickles its files, so a foreign index could run code: whoever opens one here has first
compared its files with the manifest in SQLite (see `manifest`).
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

import numpy as np
from whoosh import __version__ as _whoosh_version
from whoosh.codec.base import PostingsWriter
from whoosh.codec.whoosh3 import W3Codec
from whoosh.columns import NumericColumn
from whoosh.fields import COLUMN, FieldType, Schema
from whoosh.filedb.filestore import FileStorage
from whoosh.formats import Existence
from whoosh.index import TOC, FileIndex
from whoosh.lang.porter import stem as porter_stem
from whoosh.matching import ListMatcher
from whoosh.reading import SegmentReader

from catalogue.collection.search.packing import Gathered, unpacked
from catalogue.collection.search.segments import (
    LAYERS,
    Addition,
    Dictionary,
    Segment,
    mapped,
    without,
)

__all__ = ["VERSION", "create", "files", "porter_stem", "segments", "write"]

# Raise the number when schema, packing or the making of words change: older indexes are rebuilt.
VERSION = "2, whoosh {}.{}.{}".format(*_whoosh_version)

_NAME = "MAIN"
_POSTINGS = W3Codec.POSTS_EXT
_DOCUMENTS_A_SEGMENT = 50_000


# --- reading -----------------------------------------------------------------------------------


def segments(folder: Path, known: Iterable[Segment] = ()) -> list[Segment]:
    """Return the segments of an index, those already `known` with their dictionaries kept."""
    storage = FileStorage(str(folder))
    toc = TOC.read(storage, _NAME)
    by_name = {segment.name: segment for segment in known}
    found = []
    for each in toc.segments:
        name = each.segment_id()
        segment = by_name.get(name) or _read(storage, toc.schema, each)
        found.append(Segment(name, without(segment.quilts, each.deleted_docs()), segment.layers))
    return found


def files(folder: Path) -> list[str]:
    """Return the names of the files that the newest state of an index consists of."""
    storage = FileStorage(str(folder))
    toc = TOC.read(storage, _NAME)
    beginnings = (f"_{_NAME}_{toc.generation}.toc", *(f"{s.segment_id()}." for s in toc.segments))
    return [name for name in storage.list() if name.startswith(beginnings)]


def _read(storage: FileStorage, schema: Schema, segment: Any) -> Segment:
    reader = SegmentReader(storage, schema, segment)
    try:
        column = reader.column_reader("quilt")
        quilts = np.fromiter((column[doc] for doc in range(reader.doc_count_all())), np.int64)
        file = mapped(Path(storage.folder) / segment.make_filename(_POSTINGS))
        terms: dict[str, list[str]] = {layer: [] for layer in LAYERS}
        offsets: dict[str, list[int]] = {layer: [] for layer in LAYERS}
        for (layer, term), info in reader:
            terms[layer].append(term.decode())
            offsets[layer].append(info.extent()[0])
    finally:
        reader.close()
    layers = {
        layer: Dictionary(terms[layer], np.array(offsets[layer], np.int64), file)
        for layer in LAYERS
    }
    return Segment(segment.segment_id(), quilts, layers)


# --- writing -----------------------------------------------------------------------------------


def create(folder: Path) -> None:
    """Make an empty index in an empty folder."""
    layers = {layer: _Layer() for layer in LAYERS}
    schema = Schema(quilt=COLUMN(NumericColumn("q", default=-1)), **layers)
    FileIndex.create(_KeepingStorage(str(folder)), schema, _NAME)


def write(
    folder: Path,
    additions: Iterable[Addition],
    deleted: Mapping[str, Iterable[int]] | None = None,
    dropped: Iterable[str] = (),
) -> None:
    """Add quilts as new segments, delete documents by segment, and drop whole segments.

    No file that was there is touched, so that the state before can be gone back to until
    `manifest.tidy` takes away what is no longer needed.
    """
    gone = set(dropped)
    waiting = iter(additions)
    more = True
    while more:
        writer = _writer(folder)
        try:
            for segment in writer.segments:
                for document in (deleted or {}).get(segment.segment_id(), ()):
                    segment.delete_document(document)
            more = _add(writer, waiting)
            writer.commit(mergetype=lambda _, old: [s for s in old if s.segment_id() not in gone])
        except BaseException:
            _let_go(writer)
            raise
        deleted = None


def _let_go(writer: Any) -> None:
    """Give up a writer and its lock, which giving up alone keeps where the disk is full."""
    with suppress(Exception):
        writer.cancel()
    with suppress(Exception):
        writer.writelock.release()


def _writer(folder: Path) -> Any:
    index = FileIndex(_KeepingStorage(str(folder)), indexname=_NAME)
    writer = index.writer(codec=_Codec(), compound=False)
    writer.pool = _Pool()
    return writer


def _add(writer: Any, waiting: Iterator[Addition]) -> bool:
    """Add quilts until one segment is full, and say whether it is."""
    for count, addition in enumerate(waiting, start=1):
        writer.add_document(quilt=addition.quilt, **addition.terms)
        if count == _DOCUMENTS_A_SEGMENT:
            return True
    return False


class _Layer(FieldType):  # type: ignore[misc]
    """A field whose value is a mapping of terms to places, made by `words.occurrences`."""

    def __init__(self) -> None:
        super().__init__(format=Existence(), analyzer=None)

    def index(
        self, value: Mapping[str, list[int]], **_: Any
    ) -> Iterator[tuple[bytes, int, float, list[int]]]:
        for term, places in value.items():
            yield term.encode(), len(places), 1.0, places


class _Pool:
    """Posting lists gathered in memory: one item a term, where Whoosh's own has one a posting."""

    def __init__(self) -> None:
        self._gathered: dict[tuple[str, bytes], Gathered] = {}

    def add(self, item: tuple[str, bytes, int, float, list[int]]) -> None:
        field, term, document, _, places = item
        gathered = self._gathered.get((field, term))
        if gathered is None:
            gathered = self._gathered[field, term] = Gathered()
        gathered.add(document, places)

    def iter_postings(self) -> Iterator[tuple[str, bytes, int, float, Gathered]]:
        for (field, term), gathered in sorted(self._gathered.items(), key=lambda item: item[0]):
            yield field, term, gathered.ids[0], 1.0, gathered

    def cleanup(self) -> None:
        self._gathered.clear()


class _KeepingStorage(FileStorage):  # type: ignore[misc]
    """A folder in which Whoosh deletes nothing: SQLite has to know of the new state first."""

    def delete_file(self, name: str) -> None:
        del name


# --- the codec ---------------------------------------------------------------------------------


class _Codec(W3Codec):  # type: ignore[misc]
    """Whoosh's files with posting lists as arrays."""

    length_stats = False

    def postings_writer(self, dbfile: Any, byteids: bool = False) -> _PostingsWriter:
        assert not byteids
        return _PostingsWriter(dbfile)

    def postings_reader(
        self, dbfile: Any, terminfo: Any, format_: Any, term: Any = None, scorer: Any = None
    ) -> ListMatcher:
        offset, (length,) = terminfo.extent()  # 2.7.5 reads the length back as a tuple
        postings = unpacked(dbfile.get(offset, length), 0)
        counts = array("f", postings.counts.astype(float))
        return ListMatcher(
            *(postings.ids.tolist(), counts),
            format=format_,
            scorer=scorer,
            term=term,
            terminfo=terminfo,
        )


class _PostingsWriter(PostingsWriter):  # type: ignore[misc]
    """Writes the list of one term; as a block it tells `terminfo` of itself."""

    def __init__(self, file: Any) -> None:
        self._file = file

    def start_postings(self, format_: Any, terminfo: Any) -> None:
        del format_
        self._terminfo = terminfo

    def add_posting(self, id_: int, weight: float, vbytes: Gathered, length: Any = None) -> None:
        del id_, weight, length
        self._gathered = vbytes

    def finish_postings(self) -> Any:
        offset = self._file.tell()
        packed = self._gathered.packed()
        self._file.write(packed)
        self._terminfo.add_block(self)
        self._terminfo.set_extent(offset, len(packed))
        return self._terminfo

    def written(self) -> bool:
        return False

    @property
    def _weights(self) -> array[int]:
        return self._gathered.counts

    def __len__(self) -> int:
        return len(self._gathered.ids)

    def min_id(self) -> int:
        return self._gathered.ids[0]

    def max_id(self) -> int:
        return self._gathered.ids[-1]

    def min_length(self) -> int:
        return 0

    def max_length(self) -> int:
        return 0

    def max_weight(self) -> int:
        return max(self._gathered.counts)
