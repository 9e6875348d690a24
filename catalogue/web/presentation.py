"""How values look on a page: Markdown made safe, sizes, drawings, pictures' addresses."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

import markdown
import nh3
from flask import Flask, url_for
from markupsafe import Markup
from werkzeug.datastructures import MultiDict

from catalogue.collection.exhibits.shows import days_of
from catalogue.collection.layouts import adjusted_readings, chance, chosen, layout_from_text
from catalogue.collection.measuring import measured_things, overall_size
from catalogue.collection.ownership import made_within, printed, to_provenance
from catalogue.collection.publishing import designer_line, printing_line
from catalogue.collection.records import Photograph, Quilt
from catalogue.collection.safekeeping.standing import octets_in_words
from catalogue.dating.drawing import draw_estimate
from catalogue.dating.estimate import DateEstimate
from catalogue.exhibits.findings import written
from catalogue.measurement.drawing import draw_layout, draw_ties
from catalogue.measurement.drawing_words import layout_title
from catalogue.measurement.layouts import Layout
from catalogue.patterns import thesaurus
from catalogue.patterns.drawing import draw_design
from catalogue.photographs.derivatives import SIZES
from catalogue.printing.facts import named
from catalogue.printing.sizes import size_in_words
from catalogue.provenance.timeline import draw_timeline
from catalogue.values.lengths import format_inches
from catalogue.web.forms.fields import DayField, NumberField, ReferenceField, WrittenDateField
from catalogue.web.shared import is_member, may

_TAGS = {
    *("a", "abbr", "b", "blockquote", "br", "cite", "code", "dd", "dl", "dt", "em", "h3", "h4"),
    *("h5", "h6", "hr", "i", "li", "ol", "p", "pre", "q", "s", "strong", "sub", "sup", "ul"),
    *("table", "tbody", "td", "th", "thead", "tr"),
}
_ATTRIBUTES = {"a": {"href", "title"}, "abbr": {"title"}}
_SCHEMES = {"http", "https", "mailto"}


def prepare(app: Flask) -> None:
    """Give the templates what they need to show values."""
    app.jinja_env.filters.update(
        markdown=from_markdown,
        size=size_of,
        named=named,
        chance=chance,
        inches=format_inches,
        reading_path=reading_path,
        show_days=days_of,
        octets=octets_in_words,
        moment=_moment,
    )
    app.jinja_env.globals.update(
        is_member=is_member,
        may=may,
        picture=picture_address,
        picture_set=picture_set,
        standing_layout=chosen,
        layout_title=layout_title,
        draw_layout=_drawing,
        printing_line=printing_line,
        designer_line=designer_line,
        attributes_of=attributes_of,
        layout_from_text=layout_from_text,
        adjusted_readings=adjusted_readings,
        draw_ties=_ties,
        draw_estimate=_estimate,
        measured_things=measured_things,
        printed_ownership=printed,
        ownership_timeline=_timeline,
        draw_design=_design,
        pairs=_pairs,
    )


def _pairs(parts: Sequence[tuple[str, str]]) -> dict[str, list[str]]:
    """Return names and values as `url_for` takes them, a list of values for each name."""
    return MultiDict(parts).to_dict(flat=False)


def _moment(moment: datetime | str) -> str:
    """Return a moment, or its ISO form, in words: "25 November 2026, 14:02 UTC"."""
    if isinstance(moment, str):
        moment = datetime.fromisoformat(moment)
    return f"{written(moment.date())}, {moment:%H:%M} UTC"


def from_markdown(text: str) -> Markup:
    """Return Markdown as HTML in which nothing can act: no script, style, picture or form.

    Headings begin at the third level, below the page's own.
    """
    made = markdown.markdown(
        text,
        extensions=["sane_lists", "smarty", "toc", "tables"],
        extension_configs={"toc": {"baselevel": 3}},
        output_format="html",
    )
    return Markup(nh3.clean(made, tags=_TAGS, attributes=_ATTRIBUTES, url_schemes=_SCHEMES))


def size_of(quilt: Quilt) -> str:
    """Return the overall size in the museum's order, both units."""
    return size_in_words(overall_size(quilt))


def picture_address(quilt: int, photograph: Photograph, size: str, suffix: str = "webp") -> str:
    """Return the address of one of a photograph's smaller pictures."""
    return url_for("photographs.picture", id=quilt, number=photograph.id, size=size, suffix=suffix)


def picture_set(quilt: int, photograph: Photograph) -> str:
    """Return the pictures of every size for a browser to choose from, with their widths."""
    longest = max(photograph.pixels_wide, photograph.pixels_high)
    entries = [
        f"{picture_address(quilt, photograph, name)}"
        f" {round(photograph.pixels_wide * min(1.0, side / longest))}w"
        for name, side in SIZES.items()
    ]
    return ", ".join(entries)


def reading_path(path: str) -> str:
    """Return a path such as "borders.0.width.1" in words: "border 1, width, reading 2"."""
    *of, dimension, place = path.split(".")
    part = f"border {int(of[1]) + 1}" if of[0] == "borders" else of[0]
    return f"{part}, {dimension}, reading {int(place) + 1}"


def attributes_of(field: Any, long: bool = False) -> dict[str, str]:
    """Return the attributes of a field's box: what describes it, and how it is best typed."""
    described = [f"{field.id}-wrong"] * bool(field.errors)
    described += [f"{field.id}-hint"] * bool(field.description)
    described += [f"{field.id}-says"] * isinstance(field, WrittenDateField)
    attributes = {"aria-describedby": " ".join(described)} if described else {}
    if field.errors:
        attributes["aria-invalid"] = "true"
    if isinstance(field, ReferenceField):
        attributes |= {"list": f"names-{field.kind}", "autocomplete": "off"}
    if isinstance(field, NumberField):
        attributes |= {"type": "text", "inputmode": "numeric"}
    if isinstance(field, DayField):
        attributes["type"] = "date"
    if isinstance(field, WrittenDateField):
        attributes |= {"data-date": url_for("house.read_one_date"), "autocomplete": "off"}
    if long:
        attributes["class"] = "long"
    return attributes


def _drawing(layout: Layout, **options: Any) -> Markup:
    return Markup(draw_layout(layout, **options))


def _ties(layouts: Sequence[Layout], **options: Any) -> Markup:
    return Markup(draw_ties(layouts, **options))


def _timeline(quilt: Quilt) -> Markup:
    periods = to_provenance(quilt.ownership).periods
    return Markup(draw_timeline(periods, made_within(quilt)))


def _estimate(estimate: DateEstimate) -> Markup:
    return Markup(draw_estimate(estimate))


def _design(slug: str) -> Markup | None:
    """Return the drawing of a traditional design, None where the pattern names none."""
    return Markup(draw_design(thesaurus.design(slug))) if slug else None
