"""Drawing a drafted block as SVG, to any palette, with a title and a description in words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from xml.sax.saxutils import escape, quoteattr

from catalogue.patterns.drafting import Draft, Edge, Patch, Point, Role
from catalogue.patterns.thesaurus import Design

Palette = Mapping[Role, str]

# Our own: muslin, shirting, madder, indigo and chrome orange.
CLOTH: Palette = {
    Role.BACKGROUND: "#f3ead7",
    Role.LIGHT: "#d9c3a0",
    Role.MEDIUM: "#7f8f6a",
    Role.DARK: "#2f4a6d",
    Role.ACCENT: "#b5532a",
}
SIDE = 240  # units of the drawing across the block
SEAM = "#3b3226"


def draw_block(
    draft: Draft, palette: Palette = CLOTH, *, title: str = "Quilt block", description: str = ""
) -> str:
    """The block as one SVG element that scales freely, every colour taken from `palette`.

    Title and description are escaped; without a description the patches are counted in words.
    Raises KeyError where the palette has no colour for a role that the block uses.
    """
    width, height = SIDE, float(SIDE * draft.height)
    shapes = "".join(_path(patch, palette) for patch in draft.patches)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height:g}" role="img" '
        f"aria-label={quoteattr(title)}><title>{escape(title)}</title>"
        f"<desc>{escape(description or describe_draft(draft))}</desc>"
        f'<g stroke="{SEAM}" stroke-width="0.8" stroke-linejoin="round">{shapes}</g></svg>'
    )


def draw_design(design: Design, palette: Palette = CLOTH) -> str:
    """The design's block with its preferred name as title and its drafting in words."""
    drafting = f"{design.family}, {describe_draft(design.draft)}"
    if design.divisions:
        drafting = f"{design.family} on {design.divisions} divisions a side, " + describe_draft(
            design.draft
        )
    return draw_block(design.draft, palette, title=design.name, description=drafting)


def describe_draft(draft: Draft) -> str:
    """The number of patches and shapes by colour role, in words."""
    pieces = _counted(draft.pieced, "patch", "patches")
    laid = _counted(draft.laid, "shape laid on", "shapes laid on")
    return "; ".join(part for part in (pieces, laid) if part) + "."


def _counted(patches: tuple[Patch, ...], one: str, many: str) -> str:
    if not patches:
        return ""
    by_role = Counter(patch.role for patch in patches)
    parts = ", ".join(f"{by_role[role]} {role}" for role in Role if by_role[role])
    return f"{len(patches)} {one if len(patches) == 1 else many} ({parts})"


def _path(patch: Patch, palette: Palette) -> str:
    start = patch.edges[0].start
    run = "".join(_step(edge) for edge in patch.edges)
    return f'<path fill="{palette[patch.role]}" d="M{_at(start)}{run}Z"/>'


def _step(edge: Edge) -> str:
    if edge.handles is None:
        return f"L{_at(edge.end)}"
    return f"C{_at(edge.handles[0])} {_at(edge.handles[1])} {_at(edge.end)}"


def _at(point: Point) -> str:
    return f"{float(point[0]) * SIDE:.2f},{float(point[1]) * SIDE:.2f}"
