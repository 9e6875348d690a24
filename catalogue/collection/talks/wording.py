"""What a talk calls the records it shows: a title, and a few lines below it."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.collection.publishing import printing_line
from catalogue.collection.records import Party, Pattern, Publication, Quilt, RelatedItem
from catalogue.collection.related import Related
from catalogue.collection.summary import headline_date, makers_line

_MOST_PRINTINGS = 3  # what a slide has room for


def title_of(subject: Quilt | Pattern | Publication | RelatedItem | Party) -> str:
    """Return what a record is called."""
    return subject.title if isinstance(subject, Quilt | RelatedItem) else subject.name


def lines_of(
    subject: Quilt | Pattern | Publication | RelatedItem | Party, related: Related
) -> tuple[str, ...]:
    """Return the lines below the title: who and when, or what it is and where it appeared.

    They are shown to an audience: of a living person there is nothing but the name.
    """
    match subject:
        case Quilt():
            found = [makers_line(subject, related), headline_date(subject), subject.accession]
        case Pattern():
            family = f"drafting family {subject.family}" if subject.family else ""
            found = [family, *_printings(subject, related)]
        case Publication():
            appeared = subject.dates.says if subject.dates is not None else ""
            found = [subject.kind, subject.publisher, subject.place, appeared]
        case RelatedItem():
            found = [subject.kind, subject.date.says if subject.date is not None else ""]
        case Party(living=True):
            found = []
        case Party():
            found = [years_of(subject), subject.place]
    return tuple(line for line in found if line)


def years_of(party: Party) -> str:
    """Return when a party was there: "1847 to 1921", "from about 1890", or nothing."""
    born = party.born.says if party.born is not None else ""
    died = party.died.says if party.died is not None else ""
    if born and died:
        return f"{born} to {died}"
    if born:
        return f"{'born' if party.kind == 'person' else 'founded'} {born}"
    return f"{'died' if party.kind == 'person' else 'dissolved'} {died}" if died else ""


def _printings(pattern: Pattern, related: Related) -> Iterator[str]:
    for printing in pattern.printings[:_MOST_PRINTINGS]:
        name = printing.name_as_printed or pattern.name
        yield f"“{name}” in {printing_line(printing, related.publications[printing.publication])}"
    if len(pattern.printings) > _MOST_PRINTINGS:
        yield f"and in {len(pattern.printings) - _MOST_PRINTINGS} more"
