"""What is to be seen on a photograph, proposed from the record for those who cannot see it."""

from __future__ import annotations

from catalogue.collection.layouts import chosen
from catalogue.collection.records import Quilt
from catalogue.collection.related import Related

_VIEWS = {
    "overall": "The whole {type} from the front",
    "back": "The back of the {type}",
    "block": "One block of the {type}",
    "border": "Part of the border of the {type}",
    "label": "A label on the {type}",
    "quilting": "The quilting of the {type}, close by",
    "damage": "Damage to the {type}",
    "detail": "A detail of the {type}",
}


def proposed_text(quilt: Quilt, related: Related, view: str) -> str:
    """Return one or two sentences on a view of the quilt, from what is on record."""
    begins = _VIEWS[view].format(type=quilt.object_type)
    sentences = [f"{begins} “{quilt.title}”."]
    if view in ("overall", "block", "detail"):
        patterns = [pattern.name for pattern in related.patterns_of(quilt)]
        if patterns:
            sentences.append(f"Pattern: {', '.join(dict.fromkeys(patterns))}.")
    if view == "overall":
        sentences += _layout(quilt)
    if view == "label" and quilt.inscriptions:
        first = " ".join(quilt.inscriptions[0].text.split())
        sentences.append(f"It reads: “{first[:200]}”.")
    colours = [m.colours for m in quilt.materials if m.colours and m.part in ("top", "backing")]
    if view in ("overall", "block", "border") and colours:
        sentences.append(f"Colours: {'; '.join(dict.fromkeys(colours))}.")
    return " ".join(sentences)


def _layout(quilt: Quilt) -> list[str]:
    """Return the layout that stands for the quilt as a sentence, if there is one with blocks."""
    standing = chosen(quilt)
    if standing is None or not standing.layout.columns or not standing.layout.rows:
        return []
    layout = standing.layout
    sashed = {"none": "", "between": ", with sashing", "framed": ", sashed all round"}
    across = f"{layout.columns} across and {layout.rows} down"
    return [f"Blocks set {layout.setting}, {across}{sashed[layout.sashing]}."]
