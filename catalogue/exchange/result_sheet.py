"""What was found as a spreadsheet: one row a quilt, in the columns that its reader may see."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from catalogue.collection.layouts import setting_of
from catalogue.collection.measuring import overall_size
from catalogue.collection.ownership import printed
from catalogue.collection.pattern_notes import made_years
from catalogue.collection.privacy import Reader
from catalogue.collection.publishing import printing_line
from catalogue.collection.records import Quilt
from catalogue.collection.related import Related
from catalogue.collection.summary import headline_date

Cell = str | int | float | None
BYTE_ORDER_MARK = "\ufeff"  # by which spreadsheet programs know that a file is UTF-8

# A spreadsheet program takes a cell that begins so for a formula and works it out (OWASP, "CSV
# Injection"); an apostrophe before it makes it text.
_FORMULA = (*"=+-@\t\r\n", *"＝＋－＠")


@dataclass(frozen=True)
class SheetColumn:
    """One column: its heading, what stands in it, and the field that its reader has to see."""

    heading: str
    cell: Callable[[Quilt, Related], Cell]
    field: str = ""
    members_only: bool = False


def columns_for(reader: Reader) -> tuple[SheetColumn, ...]:
    """Return the columns that a reader may see."""
    return tuple(
        column
        for column in _COLUMNS
        if not (column.members_only and reader.is_visitor)
        and (not column.field or reader.sees("Quilt", column.field))
    )


def heading_line(columns: Iterable[SheetColumn]) -> str:
    """Return the first line of the file, with the mark that says how it is written."""
    return BYTE_ORDER_MARK + _line(column.heading for column in columns)


def quilt_line(columns: Iterable[SheetColumn], quilt: Quilt, related: Related) -> str:
    """Return the line of one quilt, as `privacy` lets its reader see it."""
    return _line(guarded(column.cell(quilt, related)) for column in columns)


def guarded(cell: Cell) -> Cell:
    """Return the cell so that no spreadsheet takes it for a formula; numbers stay numbers."""
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(_FORMULA) else cell


def _line(cells: Iterable[Cell]) -> str:
    line = io.StringIO(newline="")
    csv.writer(line).writerow(cells)
    return line.getvalue()


# --- what stands in the columns ----------------------------------------------------------------


def _of(read: Callable[[Quilt], Cell]) -> Callable[[Quilt, Related], Cell]:
    """Return a cell that needs nothing but the quilt."""
    return lambda quilt, _: read(quilt)


def _text(name: str) -> Callable[[Quilt, Related], Cell]:
    return _of(lambda quilt: str(getattr(quilt, name)))


def _joined(texts: Iterable[str]) -> str:
    return "; ".join(dict.fromkeys(text for text in texts if text))


def _makers(quilt: Quilt, related: Related) -> str:
    return _joined(party.name for party in related.makers_of(quilt))


def _patterns(quilt: Quilt, related: Related) -> str:
    return _joined(pattern.name for pattern in related.patterns_of(quilt))


def _published_in(quilt: Quilt, related: Related) -> str:
    printings = [related.printing(block.printing) for block in quilt.blocks]
    return _joined(
        printing_line(printing, related.publications[printing.publication])
        for printing in printings
        if printing is not None
    )


def _size(dimension: str, worth: Fraction) -> Callable[[Quilt, Related], Cell]:
    def cell(quilt: Quilt) -> Cell:
        size = overall_size(quilt)
        return None if size is None else round(float(getattr(size, dimension) * worth), 2)

    return _of(cell)


def _sizes() -> Iterator[SheetColumn]:
    for unit, worth in (("in", Fraction(1)), ("cm", Fraction("2.54"))):
        for dimension in ("width", "length"):
            yield SheetColumn(f"{dimension.capitalize()} ({unit})", _size(dimension, worth))


def _condition(quilt: Quilt) -> str:
    last = quilt.conditions[-1] if quilt.conditions else None
    return _joined((last.grade, last.text)) if last is not None else ""


def _donor(quilt: Quilt, related: Related) -> str:
    return related.parties[quilt.donor].name if quilt.donor is not None else ""


_COLUMNS = (
    SheetColumn("Number", _text("accession")),
    SheetColumn("Title", _text("title")),
    SheetColumn("Object", _text("object_type")),
    SheetColumn("Makers", _makers),
    SheetColumn("Date", _of(headline_date)),
    SheetColumn("Earliest year", _of(lambda quilt: made_years(quilt)[0])),
    SheetColumn("Latest year", _of(lambda quilt: made_years(quilt)[1])),
    SheetColumn("Place", _of(lambda quilt: _joined(phase.place for phase in quilt.phases))),
    SheetColumn("Pattern", _patterns),
    SheetColumn("Published in", _published_in),
    SheetColumn("Setting", _of(setting_of)),
    *_sizes(),
    SheetColumn("Cloth", _of(lambda q: _joined(f"{m.part}: {m.fibre}" for m in q.materials))),
    SheetColumn("Colours", _of(lambda quilt: _joined(m.colours for m in quilt.materials))),
    SheetColumn(
        "Techniques", _of(lambda q: _joined(f"{t.name} {t.worked}".strip() for t in q.techniques))
    ),
    SheetColumn("Quilting", _text("quilting_worked")),
    SheetColumn("Stitches to the inch", _of(lambda quilt: quilt.stitches_per_inch)),
    SheetColumn("Inscriptions", _of(lambda quilt: _joined(i.text for i in quilt.inscriptions))),
    SheetColumn("Description", _text("description")),
    SheetColumn("History", _text("history")),
    SheetColumn("Ownership", _of(lambda quilt: printed(quilt.ownership))),
    SheetColumn("Credit", _text("credit_line")),
    SheetColumn("Status", _text("status"), members_only=True),
    SheetColumn(
        "Shown to visitors",
        _of(lambda quilt: "yes" if quilt.published else "no"),
        members_only=True,
    ),
    SheetColumn("Condition", _of(_condition), "conditions"),
    SheetColumn("Came by", _text("came_by"), "came_by"),
    SheetColumn("Received", _of(lambda q: q.received.written if q.received else ""), "received"),
    SheetColumn("Restrictions", _text("restrictions"), "restrictions"),
    SheetColumn("From", _donor, "donor"),
    SheetColumn("Kept", _of(lambda q: q.locations[-1].place if q.locations else ""), "locations"),
    SheetColumn("Value for insurance", _text("insurance_value"), "insurance_value"),
)
