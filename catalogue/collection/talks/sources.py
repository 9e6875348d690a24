"""Where what a talk tells can be read: the printings, publications and papers it rests on."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.collection.publishing import printing_line
from catalogue.collection.records import Pattern, Printing, Publication, Quilt, RelatedItem
from catalogue.collection.related import Related
from catalogue.collection.talks.programme import Programme


def sources_of(programme: Programme) -> tuple[str, ...]:
    """Return a line for each source of the talk, in the order in which it comes to them."""
    found = (
        line for turn in programme.turns for line in _of(turn.subject, programme.related) if line
    )
    return tuple(dict.fromkeys(found))


def _of(subject: object, related: Related) -> Iterator[str]:
    match subject:
        case Quilt():
            for block in subject.blocks:
                printing = related.printing(block.printing)
                if printing is not None and block.pattern is not None:
                    yield _printed(printing, related.patterns[block.pattern], related)
        case Pattern():
            for printing in subject.printings:
                yield _printed(printing, subject, related)
        case Publication():
            when = subject.dates.says if subject.dates is not None else ""
            parts = (subject.name, subject.kind, subject.publisher, subject.place, when)
            yield ", ".join(part for part in parts if part)
        case RelatedItem():
            when = subject.date.says if subject.date is not None else ""
            yield ", ".join(part for part in (subject.title, subject.kind, when) if part)


def _printed(printing: Printing, pattern: Pattern, related: Related) -> str:
    where = printing_line(printing, related.publications[printing.publication])
    name = printing.name_as_printed or pattern.name
    other = f" ({pattern.name})" if name != pattern.name else ""
    return f"“{name}”{other}, {where}"
