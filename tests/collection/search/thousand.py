"""A thousand quilts made up so that the answers to questions about them are known."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import product

from catalogue.collection.folder import Collection
from catalogue.collection.records import (
    BlockKind,
    ConditionReport,
    Location,
    Material,
    Party,
    Pattern,
    Phase,
    PhaseMaker,
    Quilt,
    Reading,
    Technique,
)
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add
from catalogue.values.dates import read_date
from catalogue.values.lengths import parse_length

NOUNS = ("wedding", "harvest", "café", "schoolhouse", "orchard", "ferry", "chapel", "bakery")
ENDINGS = ("", "s", "’s")  # as the noun stands in a text
VERBS = ("stitched", "stitching", "tied", "mended", "washed", "folded")
PLACES = ("Hollow Ford", "Pellam Crossing", "North Stallery", "Ashlar Bend")
COLOURS = ("Turkey red", "chrome yellow", "indigo", "madder brown")
TECHNIQUES = ("hand piecing", "appliqué", "foundation piecing")
SURNAMES = ("Winter", "Quist", "Harker", "Dray", "Vander")
DESIGNS = ("sawtooth-star", "churn-dash", "log-cabin", "ohio-star")


@dataclass(frozen=True)
class Made:
    """One quilt as it was made up: what a question about it has to come to."""

    id: int
    noun: str
    verb: str
    place: str
    colour: str
    technique: str
    surname: str
    design: str
    first: int
    last: int
    published: bool
    sack: bool
    shelf: str
    width: int


@dataclass(frozen=True)
class Thousand:
    """The collection, its index, and how each quilt was made up."""

    collection: Collection
    index: SearchIndex
    quilts: tuple[Made, ...]

    def having(self, fits: Callable[[Made], bool]) -> set[int]:
        """Return the quilts of which something is so."""
        return {made.id for made in self.quilts if fits(made)}


def made_in(collection: Collection, chance: random.Random) -> Iterator[Made]:
    database = collection.database
    makers = {
        name: add(database, Party(f"Ada {name}", living=name == "Vander"), "Tess").id
        for name in SURNAMES
    }
    patterns = {
        design: add(database, Pattern(design.replace("-", " "), design=design), "Tess").id
        for design in DESIGNS
    }
    combined = list(product(NOUNS, VERBS, PLACES, COLOURS))
    for id in range(1, 1001):
        noun, verb, place, colour = chance.choice(combined)
        first = chance.randrange(1830, 1980)
        made = Made(
            *(id, noun, verb, place, colour, chance.choice(TECHNIQUES)),
            surname=chance.choice(SURNAMES),
            design=chance.choice(DESIGNS),
            first=first,
            last=first + chance.choice((0, 5, 20)),
            published=chance.random() < 0.6,
            sack=chance.random() < 0.05,
            shelf=f"Vault {chance.randrange(5)}",
            width=chance.randrange(60, 110),
        )
        assert add(database, _quilt(made, makers, patterns, chance), "Tess").id == id
        yield made


def _quilt(
    made: Made,
    makers: dict[str, int | None],
    patterns: dict[str, int | None],
    chance: random.Random,
) -> Quilt:
    noun = made.noun + chance.choice(ENDINGS)
    maker = makers[made.surname]
    assert maker is not None
    return Quilt(
        f"Number {made.id}",
        accession=f"{1950 + made.id % 40}.{made.id}",
        status="accessioned",
        published=made.published,
        description=f"It was {made.verb} for the {noun} of that year.",
        history="Its backing is of feed-sack cloth." if made.sack else "",
        setting_seen=chance.choice(("straight", "on point")),
        blocks=(BlockKind("", patterns[made.design]),),
        phases=(
            Phase(
                "pieced",
                read_date(f"{made.first}-{made.last}"),
                made.place,
                makers=(PhaseMaker(maker),),
            ),
        ),
        materials=(Material("top", colours=made.colour),),
        techniques=(Technique(made.technique),),
        locations=(Location(made.shelf),),
        conditions=(ConditionReport(chance.choice(("good", "fair"))),),
        readings=tuple(
            Reading("overall", dimension, str(made.width), parse_length(str(made.width)).inches)
            for dimension in ("width", "length")
        ),
    )  # fmt: skip
