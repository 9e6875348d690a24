"""How long each page takes at a given number of quilts: median and 95th percentile.

    python tests/benchmarks/pages.py [quilts, 2000 unless given]

Records are made at random from a fixed seed, with makers, patterns, readings, texts and a
photograph each. Times are of the application alone, without the network.
"""

from __future__ import annotations

import io
import random
import statistics
import sys
import tempfile
import time
from pathlib import Path

from flask.testing import FlaskClient
from PIL import Image

from catalogue.collection import accounts
from catalogue.collection.folder import Collection
from catalogue.collection.photographs import keep
from catalogue.collection.records import (
    BlockKind,
    Inscription,
    Material,
    OwnershipPeriod,
    Party,
    Pattern,
    Phase,
    PhaseMaker,
    Printing,
    Publication,
    Quilt,
    Reading,
    Technique,
)
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import add
from catalogue.values.dates import read_date
from catalogue.values.lengths import parse_length
from catalogue.web import create_app

ROUNDS = 25
PAGES = (
    *("/", "/?as=table", "/?sort=date&page=20", "/?from=1930&to=1939"),
    *("/search", "/search?q=winter", "/search?q=star+dress", "/search?q=star&from=1900&to=1920"),
    *("/search?as=pictures", "/search?as=table&sort=size", "/search?as=timeline&sort=date"),
    *("/search?pattern=3&decade=1900", "/search/all/maker"),
    *("/quilts/{id}", "/quilts/{id}/card", "/patterns", "/patterns/1", "/publications"),
    *("/publications/1", "/people", "/people/{id}", "/quilts/{id}/measurements"),
    *("/quilts/{id}/edit/making", "/quilts/{id}/edit/blocks", "/changes/quilt/{id}"),
    *("/quilts/{id}/photographs", "/quilts/new"),
)


def main(quilts: int) -> None:
    with tempfile.TemporaryDirectory() as name:
        collection = Collection.create(Path(name) / "collection")
        began = time.perf_counter()
        fill(collection, quilts, random.Random(1))
        print(f"{quilts} quilts written in {time.perf_counter() - began:.1f} s", flush=True)
        began = time.perf_counter()
        SearchIndex(collection).catch_up()
        print(f"index made in {time.perf_counter() - began:.1f} s", flush=True)
        app = create_app(collection)
        client = app.test_client()
        keeper = accounts.add(collection.database, "Tess", "keeper")
        client.get(f"/sign-in/{accounts.make_link_token(collection.database, keeper)}")
        for page in PAGES:
            report(client, page, quilts)


def report(client: FlaskClient, page: str, quilts: int) -> None:
    """Time one page in rounds, on another quilt each time, and print the figures."""
    ids = random.Random(2)
    times = []
    for round in range(ROUNDS + 2):
        address = page.format(id=ids.randrange(1, quilts // 4))
        began = time.perf_counter()
        answer = client.get(address)
        if round >= 2:
            times.append(1000 * (time.perf_counter() - began))
        assert answer.status_code == 200, address
    times.sort()
    print(
        f"{page:40} median {statistics.median(times):6.1f} ms"
        f"   95 % {times[int(0.95 * ROUNDS)]:6.1f} ms",
        flush=True,
    )


def fill(collection: Collection, quilts: int, chance: random.Random) -> None:
    beginnings, endings = ["ba", "do", "ki", "lu", "me", "no", "pa"], ["ck", "ll", "rn", "st"]
    words = [first + last for first in beginnings for last in endings]
    words += ["winter", "star", "dress", "cotton", "wedding", "grandmother", "indigo"]
    database = collection.database
    buffer = io.BytesIO()
    Image.effect_noise((1200, 1300), 60).convert("RGB").save(buffer, "JPEG")
    photograph = keep(collection, buffer.getvalue())
    column = add(database, Publication("The Fireside Page"), "bench")
    patterns = [
        add(database, Pattern(f"Pattern {n}", printings=(Printing(column.id, str(n)),)), "bench")
        for n in range(80)
    ]
    people = [
        add(
            database,
            Party(f"{chance.choice(words).title()} {chance.choice(words).title()} {n}"),
            "bench",
        )
        for n in range(max(quilts // 2, 2))
    ]
    for number in range(quilts):
        pattern = chance.choice(patterns)
        year = chance.randrange(1830, 1990)
        text = " ".join(chance.choices(words, k=chance.randrange(80, 200)))
        add(
            database,
            Quilt(
                f"{chance.choice(words).title()} quilt {number}",
                accession=f"{1950 + number // 100}.{number % 100 + 1}.1",
                published=True,
                status="accessioned",
                description=text[:200],
                history=text,
                blocks=(BlockKind("block", pattern.id, pattern.printings[0].id),),
                phases=(
                    Phase(
                        "pieced",
                        read_date(f"c. {year}"),
                        makers=(PhaseMaker(chance.choice(people).id),),
                    ),
                    Phase(
                        "quilted",
                        read_date(str(year + 5)),
                        makers=(PhaseMaker(chance.choice(people).id),),
                    ),
                ),
                readings=readings(chance),
                materials=(Material("top", "cotton prints"), Material("backing", "muslin")),
                techniques=(Technique("pieced", "by hand"),),
                inscriptions=(Inscription(text[:80]),),
                ownership=(OwnershipPeriod("Ada Winter"), OwnershipPeriod("her daughter")),
                photographs=(photograph,),
            ),
            "bench",
        )


def readings(chance: random.Random) -> tuple[Reading, ...]:
    block = chance.choice([6, 8, 9, 10, 12])
    columns, rows = chance.randrange(4, 9), chance.randrange(4, 9)
    given = [
        ("overall", "width", columns * block),
        ("overall", "length", rows * block),
        *[("block", way, block) for way in ("width", "length") for _ in range(2)],
    ]
    return tuple(
        Reading(part, way, str(inches), parse_length(str(inches)).inches)
        for part, way, inches in given
    )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
