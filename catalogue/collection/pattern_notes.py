"""What the record lets us say about a quilt's patterns: doubts about dates, designs to look at."""

from __future__ import annotations

from catalogue.collection.layouts import chosen
from catalogue.collection.ownership import made_within
from catalogue.collection.records import BlockKind, Pattern, Printing, Quilt
from catalogue.collection.related import Related
from catalogue.measurement.drafting import Drafting, DraftingError, infer_drafting
from catalogue.patterns.publishing import Doubt, PrintedAs, doubts
from catalogue.patterns.suggesting import Suggestion, suggest
from catalogue.patterns.thesaurus import design
from catalogue.values.days import year_of


def pattern_doubts(quilt: Quilt, related: Related) -> tuple[Doubt, ...]:
    """Return what the quilt's dates and its patterns' printings say against each other."""
    made = made_years(quilt)
    found = [
        doubt
        for block in quilt.blocks
        if block.pattern is not None
        for doubt in _of_block(block, related.patterns[block.pattern], related, made)
    ]
    return tuple(dict.fromkeys(found))


def made_years(quilt: Quilt) -> tuple[int | None, int | None]:
    """Return the first and the last year in which the quilt may have been made."""
    first, last = made_within(quilt)
    return (
        year_of(first) if first is not None else None,
        year_of(last) if last is not None else None,
    )


def drafting(quilt: Quilt) -> Drafting | None:
    """Return how the block was drafted, None where block or patches were not measured."""
    patches = [float(reading.inches) for reading in quilt.readings if reading.part == "patch"]
    standing = chosen(quilt)
    block = standing.layout.dimensions.block if standing is not None else None
    if not patches or block is None:
        return None
    try:
        return infer_drafting(block.width, patches)
    except DraftingError:
        return None


def suggestions(quilt: Quilt, related: Related) -> tuple[Suggestion, ...]:
    """Return designs to look at: by the drafting inferred, else by the families on record."""
    drafted = drafting(quilt)
    if drafted is not None:
        return suggest(drafted.best.family, drafted.best.divisions, made_years(quilt))
    families = [pattern.family for pattern in related.patterns_of(quilt) if not pattern.design]
    return suggest(families[0], None, made_years(quilt)) if any(families) else ()


def _of_block(
    block: BlockKind, pattern: Pattern, related: Related, made: tuple[int | None, int | None]
) -> tuple[Doubt, ...]:
    known = design(pattern.design).earliest if pattern.design else None
    return doubts(
        pattern.name,
        made,
        [
            _printed(printing, related, printing.id == block.printing)
            for printing in pattern.printings
        ],
        known.date if known is not None else "",
        known.where if known is not None else "",
    )


def _printed(printing: Printing, related: Related, followed: bool) -> PrintedAs:
    publication = related.publications[printing.publication]
    return PrintedAs(publication.name, publication.kind, printing.date, publication.dates, followed)
