"""Draw the photographs again: `python -m sample_collection.studio [part of a file name ...]`."""

from __future__ import annotations

import csv
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from sample_collection.studio import layout, relief, room
from sample_collection.studio.plan import Plan, read_plan
from sample_collection.studio.raster import View
from sample_collection.studio.scene import Scene

HERE = Path(__file__).parent.parent
PHOTOGRAPHS = HERE / "photographs"
LONG_SIDE = 1600  # pixels of an overall view
FINER = 1.4  # the quilt is drawn that much larger than it is shown


def main(wanted: list[str]) -> None:
    """Draw every photograph whose file name holds one of the words, or all of them."""
    corners = _known_corners()
    for record, plan in records():
        for picture in record["photographs"]:
            name = Path(picture["file"]).name
            if not wanted or any(word in name for word in wanted):
                photograph = take(record, plan, name)
                room.save(photograph.pixels, PHOTOGRAPHS / name)
                if photograph.corners is not None:
                    corners[name] = [f"{x:.0f},{y:.0f}" for x, y in photograph.corners]
                print(f"{name}  {(PHOTOGRAPHS / name).stat().st_size // 1024} kB", flush=True)
    _keep_corners(corners)


def records() -> Iterator[tuple[dict[str, Any], Plan]]:
    """Every quilt of the sample collection: its record and the plan that the studio sews by."""
    patterns = tomllib.loads((HERE / "patterns.toml").read_text(encoding="utf-8"))["pattern"]
    designs = {each["key"]: each["design"] for each in patterns}
    for file in sorted((HERE / "quilts").glob("*.toml")):
        record = tomllib.loads(file.read_text(encoding="utf-8"))
        yield record, read_plan(record, designs)


def take(record: dict[str, Any], plan: Plan, name: str) -> room.Photograph:
    """One photograph of a quilt as its record asks for it."""
    drawing = record["drawing"]
    view = drawing.get("views", {}).get(name, {})
    scene = layout.back(plan, _label(record)) if view.get("back") else layout.sew(plan)
    if "box" in view:
        top, _ = relief.lit_top(scene, View(*view["box"], view.get("ppi", 90)), drawing)
        return room.close_up(top, scene.seed)
    return _hung(scene, drawing)


def _label(record: dict[str, Any]) -> str:
    labels = [each["text"] for each in record.get("inscriptions", ()) if each["kind"] == "label"]
    return labels[0].strip() if labels else ""


def _hung(scene: Scene, drawing: dict[str, Any]) -> room.Photograph:
    ppi = LONG_SIDE * FINER / max(scene.width, scene.length * 1.2)
    top, mask = relief.lit_top(scene, View(0, 0, scene.width, scene.length, ppi), drawing)
    place = drawing.get("room", "plaster")
    return room.hang(top, mask, (scene.width, scene.length), scene.seed, place, LONG_SIDE)


def _known_corners() -> dict[str, list[str]]:
    file = PHOTOGRAPHS / "corners.csv"
    if not file.exists():
        return {}
    with file.open(encoding="utf-8", newline="") as lines:
        return {row[0]: row[1:] for row in list(csv.reader(lines))[1:]}


def _keep_corners(corners: dict[str, list[str]]) -> None:
    """Where a quilt's corners lie in its overall views: pixels, clockwise from the top left."""
    with (PHOTOGRAPHS / "corners.csv").open("w", encoding="utf-8", newline="") as lines:
        writer = csv.writer(lines, lineterminator="\n")
        writer.writerow(["file", "top left", "top right", "bottom right", "bottom left"])
        writer.writerows([name, *places] for name, places in sorted(corners.items()))


if __name__ == "__main__":
    main(sys.argv[1:])
