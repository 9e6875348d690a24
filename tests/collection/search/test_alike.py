"""More like this: what two quilts share is said, the rarer first to count."""

from __future__ import annotations

from catalogue.collection.folder import Collection
from catalogue.collection.privacy import Reader
from catalogue.collection.records import (
    BlockKind,
    Material,
    Party,
    Pattern,
    Phase,
    PhaseMaker,
    Quilt,
    Technique,
)
from catalogue.collection.search.alike import Alike, more_like_this
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add
from catalogue.values.dates import read_date

MEMBER = Reader("volunteer")


def test_quilts_are_alike_by_pattern_maker_years_technique_and_colour(
    collection: Collection, index: SearchIndex
) -> None:
    database = collection.database
    ada = add(database, Party("Ada Winter"), "Tess").id
    star = add(database, Pattern("Ohio Star"), "Tess").id
    assert ada is not None

    def made(when: str, **fields: object) -> int | None:
        makers = (PhaseMaker(ada),) if fields.pop("ada", False) else ()
        phases = (Phase("pieced", read_date(when), makers=makers),)
        return add(database, Quilt("Quilt", phases=phases, **fields), "Tess").id  # type: ignore[arg-type]

    block, red = (BlockKind("", star),), (Material("top", colours="Turkey red"),)
    papers = (Technique("piecing over papers"),)
    one = made("1890s", ada=True, blocks=block, materials=red, techniques=papers)
    same = made("1895", ada=True, blocks=block, materials=red)
    worked = made("1890s", techniques=papers, materials=red)
    for _ in range(6):
        made("1970s")
    assert one is not None
    found = more_like_this(database, index, one, reader=MEMBER)
    assert found == [
        Alike(same or 0, ("the same pattern: Ohio Star", "the same maker: Ada Winter",
                          "the same colour: red")),
        Alike(worked or 0, ("the same years: 1890 to 1899",
                            "the same technique: piecing over papers", "the same colour: red")),
    ]  # fmt: skip


def test_what_every_quilt_shares_makes_none_alike(
    collection: Collection, index: SearchIndex
) -> None:
    for _ in range(4):
        add(collection.database, Quilt("Quilt", materials=(Material("top", colours="red"),)), "T")
    assert more_like_this(collection.database, index, 1, reader=MEMBER) == []
    assert more_like_this(collection.database, index, 99, reader=MEMBER) == []
