"""What a card says of a quilt, fact by fact, in the words of the record."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.collection.layouts import chance, chosen
from catalogue.collection.measuring import overall_size
from catalogue.collection.publishing import designer_line, printing_line
from catalogue.collection.records import Party, Quilt
from catalogue.collection.related import Related
from catalogue.collection.summary import UNKNOWN_MAKER, headline_date
from catalogue.measurement.drawing_words import layout_title
from catalogue.printing.sizes import size_in_words


def facts_of(quilt: Quilt, related: Related) -> tuple[tuple[str, str], ...]:
    """Return (label, text) in the order of a card; what is not known is left out."""
    return tuple((label, text) for label, text in _facts(quilt, related) if text)


def _facts(quilt: Quilt, related: Related) -> Iterator[tuple[str, str]]:
    yield "Maker", makers_in_lines(quilt, related)
    yield "Date", headline_date(quilt)
    yield "Place", "; ".join(dict.fromkeys(p.place for p in quilt.phases if p.place))
    yield "Pattern", "\n".join(pattern_lines(quilt, related))
    yield "Size", size_in_words(overall_size(quilt))
    yield "Layout", _layout(quilt)
    yield "Materials", "; ".join(f"{m.part}: {m.fibre}" for m in quilt.materials if m.fibre)
    yield "Techniques", ", ".join(technique_words(quilt))
    yield "Label", "\n".join(i.text for i in quilt.inscriptions if i.kind == "label")
    yield "Credit", quilt.credit_line


def makers_in_lines(quilt: Quilt, related: Related) -> str:
    """Return each maker with life dates and the work they did, a line each."""
    work: dict[int, list[str]] = {}
    for phase in quilt.phases:
        for maker in phase.makers:
            doubt = "" if maker.certainty == "certain" else f" ({maker.certainty})"
            work.setdefault(maker.party, []).append(phase.kind + doubt)
    lines = [
        f"{named(related.parties[id])}: {', '.join(dict.fromkeys(kinds))}"
        for id, kinds in work.items()
    ]
    return "\n".join(lines) or UNKNOWN_MAKER


def named(party: Party) -> str:
    """Return a name with its life dates, as far as they are known."""
    born = party.born.says if party.born is not None else ""
    died = party.died.says if party.died is not None else ""
    if not born and not died:
        return party.name
    return f"{party.name} ({born or '?'}\N{EN DASH}{died or ('' if party.living else '?')})"


def pattern_lines(quilt: Quilt, related: Related) -> Iterator[str]:
    """Yield each pattern, with where and as what it was published."""
    for block in quilt.blocks:
        if block.pattern is None:
            continue
        line = related.patterns[block.pattern].name
        printing = related.printing(block.printing)
        if printing is not None:
            name = f"\u201c{printing.name_as_printed}\u201d, " if printing.name_as_printed else ""
            where = printing_line(printing, related.publications[printing.publication])
            designer = designer_line(printing)
            line += f"; published as {name}{where}" + (f", by {designer}" if designer else "")
        yield line + ("" if block.certainty == "certain" else f" ({block.certainty})")


def technique_words(quilt: Quilt) -> Iterator[str]:
    """Yield each technique with how it was worked, the quilting and its stitches last."""
    for technique in quilt.techniques:
        if technique.name != "quilting" or not quilt.quilting_worked:
            yield f"{technique.name} {technique.worked}".strip()
    if quilt.quilting_worked:
        yield f"quilted {quilt.quilting_worked}".replace("quilted not quilted", "not quilted")
    if quilt.stitches_per_inch:
        yield f"{quilt.stitches_per_inch} stitches to the inch on the top"


def _layout(quilt: Quilt) -> str:
    standing = chosen(quilt)
    if standing is None:
        return ""
    layout = standing.layout
    if standing.accepted:
        return layout_title(layout)
    return f"{layout_title(layout)} (inferred, {chance(layout.probability)} probable)"
