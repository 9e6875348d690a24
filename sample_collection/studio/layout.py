"""From the record of a quilt to its sewn top: field, borders, binding; and to its back."""

from __future__ import annotations

from math import pi

from sample_collection.studio.plan import SIDES, Plan
from sample_collection.studio.scene import Box, Scene
from sample_collection.studio.settings import SETTINGS, quarters
from sample_collection.studio.stitchery import tie, write


def sew(plan: Plan) -> Scene:
    """The whole top: field, borders from the inside out, binding."""
    width, length = plan.size
    scene = Scene(width, length, plan.drawing["seed"])
    edge = 0.0 if plan.drawing.get("binding_within") else plan.binding
    left = edge + sum(border.width for border in plan.borders if "left" in border.sides)
    top = edge + sum(border.width for border in plan.borders if "top" in border.sides)
    field_width, field_length = plan.field_size
    scene.field_box = (left, top, left + field_width, top + field_length)
    SETTINGS[plan.setting](scene, plan)
    _sign(scene, plan)
    _sew_borders(scene, plan)
    _bind(scene, plan)
    for words in plan.drawing.get("words", ()):
        write(
            scene, words["text"], tuple(words["at"]), words["height"], words["colour"], width=0.07
        )
    if "tied" in plan.drawing:
        tie(scene, *plan.drawing["tied"])
    return scene


# --- borders and binding -------------------------------------------------------------------------


def _sew_borders(scene: Scene, plan: Plan) -> None:
    x0, y0, x1, y1 = scene.field_box
    for number, border in enumerate(plan.borders, start=1):
        w, zone = border.width, f"border {number}"
        left, right, top, bottom = (side in border.sides for side in SIDES)
        outer = (x0 - w * left, y0 - w * top, x1 + w * right, y1 + w * bottom)
        strips = {
            "left": (x0 - w, y0, x0, y1),
            "right": (x1, y0, x1 + w, y1),
            "top": (outer[0], outer[1], outer[2], y0),
            "bottom": (outer[0], y1, outer[2], outer[3]),
        }
        for side in border.sides:
            _sew_strip(scene, strips[side], border.fabric, zone)
        if border.corners:
            for x in (outer[0], x1):
                for y in (outer[1], y1):
                    scene.add_box((x, y, x + w, y + w), border.corners, zone)
        x0, y0, x1, y1 = outer


def _sew_strip(scene: Scene, box: Box, fabric: str, zone: str) -> None:
    """One border strip: plain, or a row of sawteeth where two cloths are named ("red/white")."""
    tooth, _, ground = fabric.partition("/")
    scene.add_box(box, ground or tooth, zone)
    if not ground:
        return
    x0, y0, x1, y1 = box
    upright = x1 - x0 < y1 - y0
    wide, long = (x1 - x0, y1 - y0) if upright else (y1 - y0, x1 - x0)
    count = max(1, round(long / wide))
    for k in range(count):
        a, b = long * k / count, long * (k + 1) / count
        corners = [(0.0, a), (wide, a), (0.0, b)] if upright else [(a, 0.0), (b, wide), (a, wide)]
        scene.add([(x0 + x, y0 + y) for x, y in corners], tooth, zone)


def back(plan: Plan, label: str) -> Scene:
    """The other side: panels of backing, and a label near the lower left corner if any."""
    width, length = plan.size
    scene = Scene(width, length, plan.drawing["seed"] + 31, field_box=(0, 0, width, length))
    panels = plan.drawing.get("back_panels", 2)
    cloth = plan.fabrics.get("back", "muslin")
    for k in range(panels):
        left, right = width * k / panels, width * (k + 1) / panels
        scene.add_box((left, 0, right, length), cloth, "back")
    _bind(scene, plan)
    if label:
        _sew_label(scene, label)
    return scene


LABEL_BOX = (4.0, 8.6, 11.4, 4.2)  # from the left and the bottom edge, inches


def _sew_label(scene: Scene, text: str) -> None:
    x0, x1 = LABEL_BOX[0], LABEL_BOX[2]
    y0, y1 = scene.length - LABEL_BOX[1], scene.length - LABEL_BOX[3]
    scene.add(
        [(x0, y0), (x1, y0 + 0.08), (x1 - 0.06, y1), (x0 + 0.05, y1 + 0.05)],
        "bleached-muslin",
        "label",
        laid=True,
    )
    lines = text.splitlines()
    height = min(0.42, 6.2 / max(len(line) for line in lines) * 1.15, 3.6 / len(lines) / 1.75)
    write(scene, text, ((x0 + x1) / 2, (y0 + y1) / 2 + 0.1), height, "#3a3f58", turn=0.01)


def _sign(scene: Scene, plan: Plan) -> None:
    """Names inked along the plain strips of a signature quilt, block by block."""
    x0, y0, _, _ = scene.field_box
    for text, column, row in plan.signatures:
        centre = x0 + (column - 0.5) * plan.block[0], y0 + (row - 0.5) * plan.block[1]
        turned = quarters(plan, column - 1, row - 1) % 2
        write(scene, text, centre, 0.5, "#4a3328", turn=pi / 4 if turned else -pi / 4, width=0.045)


def _bind(scene: Scene, plan: Plan) -> None:
    w = plan.binding
    if not w or scene.edge:
        return
    cloth = plan.one("binding")
    width, length = scene.width, scene.length
    for box in ((0, 0, width, w), (0, length - w, width, length), (0, w, w, length - w)):
        scene.add_box(box, cloth, "binding")
    scene.add_box((width - w, w, width, length - w), cloth, "binding")
