"""The sample collection, read from its files into a new collection.

One TOML file a quilt, people, publications and patterns in files of their own; they refer to one
another by keys. Field names are those of the record. What only the drawing script needs stands in
a table `drawing`, which is passed over here.
"""

from __future__ import annotations

import csv
import dataclasses
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Any

from catalogue.collection import photographs, settings
from catalogue.collection.folder import Collection
from catalogue.collection.ownership import dated
from catalogue.collection.records import (
    Exhibit,
    FamilyTie,
    Party,
    Pattern,
    Photograph,
    Publication,
    Quilt,
    Reading,
    RelatedItem,
    Talk,
    TalkGiven,
)
from catalogue.collection.settings import Settings
from catalogue.collection.squaring import with_corners
from catalogue.collection.store import add, save
from catalogue.collection.tables import Field, fields_of
from catalogue.collection.talks.giving import keep_as_given
from catalogue.collection.vocabulary import CLOSED
from catalogue.photographs.homography import CORNERS, Corners, checked_corners
from catalogue.values.dates import HistoricDate, read_date
from catalogue.values.lengths import parse_length

Progress = Callable[[str], None]


class SampleError(ValueError):
    """A file of the sample collection that cannot be read as a record; the message names both."""


@dataclass
class _Keys:
    """The ids that the keys of the files have become."""

    parties: dict[str, int] = field(default_factory=dict)
    publications: dict[str, int] = field(default_factory=dict)
    patterns: dict[str, int] = field(default_factory=dict)
    printings: dict[str, int] = field(default_factory=dict)
    quilts: dict[str, int] = field(default_factory=dict)
    related: dict[str, int] = field(default_factory=dict)


def load_sample(collection: Collection, folder: Path, progress: Progress) -> int:
    """Fill a new collection from a folder of sample files, and return the number of quilts.

    `progress` is told what is being read. Raises SampleError.
    """
    house = _read(folder / "collection.toml")
    known = {each.name for each in dataclasses.fields(Settings)}
    settings.write(collection.database, Settings(**{k: v for k, v in house.items() if k in known}))
    loader = _Loader(collection, folder, house.get("entered_by", "the guild's historian"))
    loader.load_register()
    files = sorted((folder / "quilts").glob("*.toml"))
    for number, file in enumerate(files, start=1):
        loader.load_quilt(file)
        progress(f"quilt {number} of {len(files)}: {file.stem}")
    loader.load_related()
    loader.load_exhibits()
    loader.load_talks()
    return len(files)


class _Loader:
    """Reads the files of one folder into one collection."""

    def __init__(self, collection: Collection, folder: Path, by: str) -> None:
        self._collection = collection
        self._folder = folder
        self._by = by
        self._keys = _Keys()
        self._corners = dict(_corners(folder / "photographs" / "corners.csv"))

    def load_register(self) -> None:
        """Add people, publications and patterns, in the order in which they refer to each other."""
        people = _read(self._folder / "people.toml")["party"]
        ties = {entry["key"]: entry.pop("ties") for entry in people if "ties" in entry}
        for entry in people:
            key, contact = entry.pop("key"), entry.pop("contact", None)
            if contact:
                entry["contacts"] = [contact]
            self._keys.parties[key] = self._add(Party, entry, key)
        for key, rows in ties.items():
            self._tie(key, rows)
        for entry in _read(self._folder / "publications.toml")["publication"]:
            key = entry.pop("key")
            self._keys.publications[key] = self._add(Publication, entry, key)
        for entry in _read(self._folder / "patterns.toml")["pattern"]:
            self._add_pattern(entry)

    def _tie(self, key: str, rows: list[dict[str, Any]]) -> None:
        """Tie a person to relatives, once everybody is on record."""
        for row in rows:
            self._resolve(row, "relative", self._keys.parties)
        ties = tuple(_to_record(FamilyTie, row) for row in rows)
        person = self._keys.parties[key]
        save(self._collection.database, Party, person, {"ties": ties}, by=self._by, expecting=1)

    def _add_pattern(self, entry: dict[str, Any]) -> None:
        key = entry.pop("key")
        printings = entry.pop("printing", [])
        keys = [printing.pop("key") for printing in printings]
        for printing in printings:
            printing["publication"] = self._keys.publications[printing["publication"]]
        pattern = self._record(Pattern, entry | {"printings": printings}, key)
        added = add(self._collection.database, pattern, self._by)
        assert added.id is not None
        self._keys.patterns[key] = added.id
        for printing_key, printing in zip(keys, added.printings, strict=True):
            assert printing.id is not None
            self._keys.printings[printing_key] = printing.id

    def load_quilt(self, file: Path) -> None:
        """Add one quilt with its photographs."""
        entry = _read(file)
        entry.pop("drawing", None)
        readings = tuple(_readings(entry))
        if "donor" in entry:
            entry["donor"] = self._keys.parties[entry["donor"]]
        for block in entry.get("blocks", []):
            self._resolve(block, "pattern", self._keys.patterns)
            self._resolve(block, "printing", self._keys.printings)
        for phase in entry.get("phases", []):
            for maker in phase.get("makers", []):
                self._resolve(maker, "party", self._keys.parties)
        for period in entry.get("ownership", []):
            self._resolve(period, "person", self._keys.parties)
        pictures = tuple(self._photograph(each) for each in entry.pop("photographs", []))
        quilt = self._record(Quilt, entry, file.stem)
        quilt = dataclasses.replace(
            quilt,
            readings=readings,
            photographs=pictures,
            ownership=tuple(dated(period) for period in quilt.ownership),
        )
        added = add(self._collection.database, quilt, self._by)
        assert added.id is not None
        self._keys.quilts[file.stem] = added.id

    def load_related(self) -> None:
        """Add letters, day books and whatever else belongs to quilts, patterns and people."""
        for entry in _read(self._folder / "related.toml")["item"]:
            for link in entry.get("links", []):
                self._resolve(link, "quilt", self._keys.quilts)
                self._resolve(link, "pattern", self._keys.patterns)
                self._resolve(link, "publication", self._keys.publications)
                self._resolve(link, "party", self._keys.parties)
            key = entry.pop("key")
            self._keys.related[key] = self._add(RelatedItem, entry, key)

    def load_exhibits(self) -> None:
        """Add the shows with their walls and quilts."""
        for entry in _read(self._folder / "exhibits.toml")["exhibit"]:
            for shown in entry.get("quilts", []):
                self._resolve(shown, "quilt", self._keys.quilts)
            self._add(Exhibit, entry, entry["title"])

    def load_talks(self) -> None:
        """Add the talks, and keep those that were given as they were given."""
        for entry in _read(self._folder / "talks.toml")["talk"]:
            versions = [_to_record(TalkGiven, {"title": "", **g}) for g in entry.pop("given", [])]
            for item in entry["items"]:
                self._resolve(item, "quilt", self._keys.quilts)
                self._resolve(item, "pattern", self._keys.patterns)
                self._resolve(item, "publication", self._keys.publications)
                self._resolve(item, "related_item", self._keys.related)
                self._resolve(item, "party", self._keys.parties)
            talk = self._add(Talk, entry, entry["title"])
            for version in versions:
                keep_as_given(self._collection.database, talk, version, self._by)

    def _photograph(self, entry: dict[str, Any]) -> Photograph:
        file = entry.pop("file")
        place = (self._folder / file).resolve()
        if not place.is_relative_to(self._folder.resolve()):
            raise SampleError(f"“{file}” lies outside the folder of the sample.")
        try:
            data = place.read_bytes()
        except OSError as error:
            raise SampleError(f"“{file}” cannot be read: {error.strerror}.") from error
        kept = dataclasses.replace(photographs.keep(self._collection, data), **entry)
        points = self._corners.get(Path(file).name)
        return with_corners(self._collection, kept, points, "") if points is not None else kept

    def _resolve(self, entry: dict[str, Any], name: str, ids: dict[str, int]) -> None:
        if name in entry:
            entry[name] = ids[entry[name]]

    def _add(self, kind: type[Any], entry: dict[str, Any], key: str) -> int:
        added = add(self._collection.database, self._record(kind, entry, key), self._by)
        assert added.id is not None
        return int(added.id)

    def _record(self, kind: type[Any], entry: dict[str, Any], key: str) -> Any:
        try:
            return _to_record(kind, entry)
        except (ValueError, TypeError, KeyError) as error:
            raise SampleError(f"“{key}” is not a {kind.__name__.lower()}: {error}") from error


def _corners(file: Path) -> Iterator[tuple[str, Corners]]:
    """Yield the corners of quilts in the pictures that show one whole, by the pictures' names."""
    if file.exists():
        for row in csv.DictReader(file.read_text("utf-8").splitlines()):
            points = (row[corner] for corner in CORNERS)
            yield row["file"], checked_corners([[float(v) for v in p.split(",")] for p in points])


def _read(file: Path) -> dict[str, Any]:
    try:
        return tomllib.loads(file.read_text("utf-8"))
    except (OSError, tomllib.TOMLDecodeError) as error:
        raise SampleError(f"“{file.name}” cannot be read: {error}") from error


def _to_record(kind: type[Any], entry: dict[str, Any]) -> Any:
    """Return the record that a table of the file describes; written dates are read as dates."""
    known = {each.name: each for each in fields_of(kind)}
    unknown = entry.keys() - known.keys()
    if unknown:
        raise ValueError(f"it has no field “{sorted(unknown)[0]}”")
    for name, words in CLOSED.get(kind.__name__, {}).items():
        if name in entry and entry[name] not in words:
            raise ValueError(f"“{entry[name]}” is not one of the words for {name}: {words}")
    return kind(**{name: _value(known[name], value) for name, value in entry.items()})


def _value(field: Field, value: Any) -> Any:
    if field.rows is not None:
        rows = field.rows
        return tuple(_to_record(rows, each) for each in value)
    if field.holds is HistoricDate:
        return read_date(value)
    if field.holds is Fraction:
        return parse_length(value).inches if isinstance(value, str) else Fraction(value)
    return value.strip("\n") if isinstance(value, str) else value


def _readings(entry: dict[str, Any]) -> Iterator[Reading]:
    """Yield the readings of a quilt's file, written as `"border 2 width" = ["3", "3 1/8"]`."""
    by, on = entry.pop("readings_by", ""), entry.pop("readings_on", "")
    places = entry.pop("readings_where", {})
    unit = entry.get("length_unit", "in")
    for of, texts in entry.pop("readings", {}).items():
        part, *number, dimension = of.split()
        where = places.get(of, [])
        for place, written in enumerate(texts):
            yield Reading(
                part,
                dimension,
                written,
                parse_length(written, unit).inches,
                int(number[0]) if number else 1,
                where[place] if place < len(where) else "",
                by,
                on,
            )
