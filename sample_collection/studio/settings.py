"""Every setting of the sample collection: how blocks, strips and triangles fill the field."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import pi, sqrt

import numpy as np

from catalogue.patterns import Role
from sample_collection.studio.plan import ROOT2, Plan
from sample_collection.studio.scene import Box, Scene, Scraps, Seat, sew_block
from sample_collection.studio.shapes import clip, hexagon, rosette, shards
from sample_collection.studio.stitchery import embroider_seams, embroider_sprays

# --- settings ------------------------------------------------------------------------------------


def _scraps(plan: Plan) -> Scraps:
    roles = {role.value for role in Role}
    by_role = {use: cloth for use, cloth in plan.fabrics.items() if use in roles}
    return Scraps(by_role, plan.drawing.get("scrappy", "block"), plan.drawing["seed"])


def _second_scraps(plan: Plan) -> Scraps:
    second = plan.drawing["second"]
    return Scraps(second, plan.drawing.get("scrappy", "block"), plan.drawing["seed"] + 7)


def quarters(plan: Plan, column: int, row: int) -> int:
    """How far a block is turned on purpose, and the one block that is turned by mistake."""
    wrong = plan.drawing.get("turned_block")
    turn = TURNS[plan.drawing.get("turns", "none")](plan, column, row)
    if wrong and (wrong["column"], wrong["row"]) == (column + 1, row + 1):
        turn += wrong["turn"] // 90
    return turn % 4


def _barn_raising(plan: Plan, column: int, row: int) -> int:
    across, down = column - (plan.columns - 1) / 2, row - (plan.rows - 1) / 2
    quadrant = {(True, False): 0, (True, True): 1, (False, True): 2, (False, False): 3}
    ring = int(abs(across)) + int(abs(down))
    return quadrant[across > 0, down > 0] + 2 * (ring % 2)


def _never(_plan: Plan, _column: int, _row: int) -> int:
    return 0


def _chequered(_plan: Plan, column: int, row: int) -> int:
    return (column + row) % 2


TURNS: dict[str, Callable[[Plan, int, int], int]] = {
    "none": _never,
    "chequered": _chequered,
    "barn raising": _barn_raising,
}


def _straight(scene: Scene, plan: Plan) -> None:
    x0, y0, _, _ = scene.field_box
    (w, h), s = plan.block, plan.sash
    frame = s if plan.framed else 0.0
    scraps = _scraps(plan)
    other = _second_scraps(plan) if "second" in plan.drawing else None
    if s:
        _sash(scene, plan)
    for row in range(plan.rows):
        for column in range(plan.columns):
            centre = x0 + frame + column * (w + s) + w / 2, y0 + frame + row * (h + s) + h / 2
            seat = Seat(centre, w, h, quarters(plan, column, row))
            odd = (column + row) % 2 == 1
            if odd and plan.drawing.get("alternate") == "plain":
                _plain_block(scene, plan, seat)
            elif odd and other:
                sew_block(scene, plan.drafts[1], seat, other)
            else:
                sew_block(scene, plan.drafts[0], seat, scraps)


def _plain_block(scene: Scene, plan: Plan, seat: Seat) -> None:
    cloth = plan.fabrics["alternate"]
    choice = cloth if isinstance(cloth, str) else str(scene.random.choice(cloth))
    scene.add(seat.outline(), choice, "alternate", seat.slant)


def _sash(scene: Scene, plan: Plan) -> None:
    """Sashing strips, with cornerstones where the record has them, under the blocks of a grid."""
    x0, y0, x1, y1 = scene.field_box
    (w, h), s = plan.block, plan.sash
    first = 0 if plan.framed else 1
    start_x = x0 + (0.0 if plan.framed else w)
    start_y = y0 + (0.0 if plan.framed else h)
    across = [start_x + k * (w + s) for k in range(plan.columns + 1 - 2 * first + first)]
    down = [start_y + k * (h + s) for k in range(plan.rows + 1 - 2 * first + first)]
    across = [x for x in across if x + s <= x1 + 1e-6]
    down = [y for y in down if y + s <= y1 + 1e-6]
    cloth = plan.one("sash")
    scene.add_box(scene.field_box, cloth, "sash")
    for y in down:  # long strips across, or short ones between cornerstones
        scene.add_box((x0, y, x1, y + s), cloth, "sash")
    for x in across:
        for k in range(plan.rows):
            top = y0 + (s if plan.framed else 0) + k * (h + s)
            scene.add_box((x, top, x + s, top + h), cloth, "sash")
    if plan.cornerstones:
        for y in down:
            for k in range(plan.columns):
                left = x0 + (s if plan.framed else 0) + k * (w + s)
                scene.add_box((left, y, left + w, y + s), cloth, "sash")
            for x in across:
                scene.add_box((x, y, x + s, y + s), plan.one("cornerstone"), "cornerstone")


def _on_point(scene: Scene, plan: Plan) -> None:
    x0, y0, _, _ = scene.field_box
    pitch = (plan.block[0] + plan.sash) * ROOT2
    scene.add_box(scene.field_box, plan.one("triangle"), "triangle")
    scraps = _scraps(plan)
    inner = "plain" if plan.drawing.get("alternate") == "plain" else "pieced"
    for dual in (False, True):
        offset = 0.5 if not dual else 1.0
        for row in range(plan.rows - dual):
            for column in range(plan.columns - dual):
                centre = x0 + (column + offset) * pitch, y0 + (row + offset) * pitch
                turn = 0 if dual else quarters(plan, column, row)
                seat = Seat(centre, *plan.block, quarters=turn, slant=pi / 4)
                if plan.sash:
                    _frame_on_point(scene, plan, centre)
                if dual and inner == "plain":
                    _plain_block(scene, plan, Seat(centre, *plan.block, slant=pi / 4))
                else:
                    sew_block(scene, plan.drafts[0], seat, scraps)


def _frame_on_point(scene: Scene, plan: Plan, centre: tuple[float, float]) -> None:
    """Four strips and four cornerstones round one block on point."""
    b, s = plan.block[0], plan.sash
    for quarter in range(4):
        angle = pi / 4 + quarter * pi / 2
        step = np.array([np.cos(angle), np.sin(angle)]) * (b + s) / 2
        middle = (centre[0] + float(step[0]), centre[1] + float(step[1]))
        scene.add(Seat(middle, s, b, slant=angle).outline(), plan.one("sash"), "sash", angle)
        side = np.array([-step[1], step[0]])
        corner = (middle[0] + float(side[0]), middle[1] + float(side[1]))
        scene.add(
            Seat(corner, s, s, slant=angle).outline(), plan.one("cornerstone"), "cornerstone", angle
        )


def _strippy(scene: Scene, plan: Plan) -> None:
    x0, y0, _, y1 = scene.field_box
    (w, h), s = plan.block, plan.sash
    scraps = _scraps(plan)
    frame = s if plan.framed else 0.0
    strips = plan.columns + (1 if plan.framed else -1)
    for k in range(strips):
        left = x0 + (0 if plan.framed else w) + k * (w + s)
        scene.add_box((left, y0, left + s, y1), plan.one("sash"), "sash")
    for column in range(plan.columns):
        for row in range(plan.rows):
            centre = x0 + frame + column * (w + s) + w / 2, y0 + row * h + h / 2
            sew_block(scene, plan.drafts[0], Seat(centre, w, h), scraps)


def _bars(scene: Scene, plan: Plan) -> None:
    x0, y0, _, y1 = scene.field_box
    cloth = plan.fabrics["bars"]
    for k in range(plan.columns):
        left = x0 + k * plan.block[0]
        scene.add_box((left, y0, left + plan.block[0], y1), cloth[k % len(cloth)], "alternate")


def _zigzag(scene: Scene, plan: Plan) -> None:
    x0, y0, _, y1 = scene.field_box
    d = plan.block[0] * ROOT2
    scraps = _scraps(plan)
    for column in range(plan.columns):
        left = x0 + column * d
        scene.add_box((left, y0, left + d, y1), plan.one("triangle"), "triangle")
    for column in range(plan.columns):
        dropped = column % 2
        for row in range(plan.rows + dropped):
            centre = x0 + (column + 0.5) * d, y0 + (row + 0.5 - 0.5 * dropped) * d
            sew_block(scene, plan.drafts[0], Seat(centre, *plan.block, slant=pi / 4), scraps)
    _trim(scene, scene.field_box)


def _trim(scene: Scene, box: Box) -> None:
    """Cut off what reaches over the field: the halves at the ends of a dropped row."""
    low, high = np.array(box[:2]), np.array(box[2:])
    kept = []
    for piece in scene.pieces:
        outline = clip(piece.outline, low, high)
        if len(outline) >= 3:
            kept.append(replace(piece, outline=outline))
    scene.pieces = kept


def _medallion(scene: Scene, plan: Plan) -> None:
    x0, y0, x1, y1 = scene.field_box
    seat = Seat(((x0 + x1) / 2, (y0 + y1) / 2), x1 - x0, y1 - y0)
    sew_block(scene, plan.drafts[0], seat, _scraps(plan))


def _hexagons(scene: Scene, plan: Plan) -> None:
    """A field of flowers: rosettes of nineteen hexagons, parted by a path one hexagon wide."""
    x0, y0, _, _ = scene.field_box
    side = plan.block[0] / 2
    flowers = Scraps(
        {"dark": plan.fabrics["dark"], "light": plan.fabrics["light"]}, "patch", scene.seed
    )
    chosen: dict[tuple[int, int], tuple[str, str]] = {}
    for row in range(plan.rows):
        for column in range(plan.columns - row % 2):
            q, r = column - row // 2, row
            flower, ring = rosette(q - 8, r - 3)
            if flower not in chosen:
                chosen[flower] = flowers.pick(Role.DARK), flowers.pick(Role.LIGHT)
            cloth = (plan.one("accent"), chosen[flower][1], chosen[flower][0], plan.one("path"))[
                ring
            ]
            x = x0 + (column + 0.5 + 0.5 * (row % 2)) * side * sqrt(3)
            y = y0 + (1.5 * row + 1) * side
            scene.add(hexagon(x, y, side), cloth, "path" if ring == 3 else "block")
    scene.edge = [piece.outline for piece in scene.pieces]


def _rings(scene: Scene, plan: Plan) -> None:
    """Squares in rings of one cloth about the middle."""
    x0, y0, _, _ = scene.field_box
    w, h = plan.block
    cloth = plan.fabrics["rings"]
    for row in range(plan.rows):
        for column in range(plan.columns):
            ring = abs(column - plan.columns // 2) + abs(row - plan.rows // 2)
            left, top = x0 + column * w, y0 + row * h
            scene.add_box((left, top, left + w, top + h), cloth[ring % len(cloth)], "block")


def _crazy(scene: Scene, plan: Plan) -> None:
    """Foundation squares of random patches, their seams covered with embroidery."""
    x0, y0, x1, y1 = scene.field_box
    across, down = plan.drawing["foundations"]
    w, h = (x1 - x0) / across, (y1 - y0) / down
    cloth = plan.fabrics["dark"]
    for row in range(down):
        for column in range(across):
            box = (x0 + column * w, y0 + row * h, x0 + (column + 1) * w, y0 + (row + 1) * h)
            for outline in shards(scene.random, box):
                scene.add(
                    outline, str(scene.random.choice(cloth)), "block", scene.random.uniform(0, pi)
                )
    threads = plan.drawing["threads"]
    embroider_seams(scene, threads)
    embroider_sprays(scene, threads, 26)


def _whole(scene: Scene, plan: Plan) -> None:
    x0, y0, x1, y1 = scene.field_box
    panels = plan.drawing.get("panels", 3)
    for k in range(panels):
        left, right = x0 + (x1 - x0) * k / panels, x0 + (x1 - x0) * (k + 1) / panels
        scene.add_box((left, y0, right, y1), plan.one("cloth"), "alternate")


SETTINGS: dict[str, Callable[[Scene, Plan], None]] = {
    "straight": _straight,
    "on point": _on_point,
    "strippy": _strippy,
    "bars": _bars,
    "zigzag": _zigzag,
    "medallion": _medallion,
    "hexagon": _hexagons,
    "one-patch": _rings,
    "crazy": _crazy,
    "whole cloth": _whole,
}
