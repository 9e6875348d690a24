"""The demo: the sample collection made, and in ten lines what the catalogue does with it."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

from catalogue import shipped
from catalogue.collection import settings
from catalogue.collection.database import CollectionError
from catalogue.collection.folder import DATABASE, Collection
from catalogue.collection.layouts import chance, inferred
from catalogue.collection.privacy import VISITOR
from catalogue.collection.records import Quilt
from catalogue.collection.related import related_to
from catalogue.collection.safekeeping.claims import claimed
from catalogue.collection.search.finding import Wanted, find
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import load_many
from catalogue.collection.used import holdings
from catalogue.exchange.sample import load_sample
from catalogue.measurement.drawing_words import layout_title
from catalogue.printing.entries import Entry
from catalogue.printing.kinds import KINDS, print_entries

Say = Callable[[str], None]


def demonstrate(folder: Path, say: Say) -> None:
    """Make or reuse the sample collection in a folder, and say what was done with it.

    Raises CollectionError where the folder holds something that is not a collection.
    """
    collection = _opened(folder, say)
    with claimed(folder, "the demo is being made ready"):
        index = _ready(collection, say)
        try:
            _report(collection, index, say)
        finally:
            index.close()
            collection.close()


def _opened(folder: Path, say: Say) -> Collection:
    if (folder / DATABASE).exists():
        say(f"The sample collection is in {folder.absolute()} already; it is used as it is.")
        return Collection.open(folder)
    if folder.exists() and any(folder.iterdir()):
        raise CollectionError(f"“{folder}” holds other things: name an empty or a new folder.")
    # Made beside and moved into place, so that an interrupted start leaves no half collection.
    making = folder.with_name(f"{folder.name}.making")
    shutil.rmtree(making, ignore_errors=True)
    collection = Collection.create(making)
    load_sample(collection, shipped.folder("sample_collection"), say)
    collection.close()
    if folder.exists():
        folder.rmdir()
    making.rename(folder)
    return Collection.open(folder)


def _ready(collection: Collection, say: Say) -> SearchIndex:
    index = SearchIndex(collection)
    index.catch_up()
    say("The search index is ready.")
    return index


def _report(collection: Collection, index: SearchIndex, say: Say) -> None:
    database = collection.database
    house = settings.read(database)
    held = holdings(database)
    say("")
    say(f"{house.name}, {house.place}")
    say(
        f"Records: {held.quilts} quilts, {held.parties} people and groups,"
        f" {held.patterns} patterns, {held.publications} publications."
    )
    say(f"Photographs: {held.photographs}; tape readings: {held.readings}.")
    quilt = _best_measured(collection, index)
    _say_layout(quilt, say)
    _say_search(collection, index, say)
    _say_card(collection, quilt, say)


def _best_measured(collection: Collection, index: SearchIndex) -> Quilt:
    """Return the published quilt with the most readings of sashing, whose layout says the most."""
    found = find(collection.database, index, Wanted(), reader=VISITOR, per_page=1000)
    return max(load_many(collection.database, Quilt, found.ids), key=_sashing_readings)


def _sashing_readings(quilt: Quilt) -> tuple[int, int]:
    of_sashing = [reading for reading in quilt.readings if reading.part == "sashing"]
    return len(of_sashing), len(quilt.readings)


def _say_layout(quilt: Quilt, say: Say) -> None:
    inference = inferred(quilt)
    assert inference is not None
    layout = inference.layouts[0]
    say(f"Layout of “{quilt.title}” from its readings: {layout_title(layout)}.")
    say(f"  {chance(layout.probability)} probable: {layout.grounds}")


def _say_search(collection: Collection, index: SearchIndex, say: Say) -> None:
    wanted = Wanted(words="star", from_year=1880, to_year=1939, sort="fit")
    found = find(collection.database, index, wanted, reader=VISITOR)
    titles = [quilt.title for quilt in load_many(collection.database, Quilt, found.ids)]
    say(f"Search for “star”, 1880 to 1939: {found.total} found: {'; '.join(titles[:4])}.")


def _say_card(collection: Collection, quilt: Quilt, say: Say) -> None:
    house = settings.read(collection.database)
    entry = Entry(quilt, related_to(collection.database, [quilt]), house)
    file = collection.folder / "card.pdf"
    file.write_bytes(print_entries(collection, KINDS["card"], [entry]))
    say(f"Catalogue card: {file.absolute()}")
