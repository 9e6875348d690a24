"""An elevation in sentences, for those who do not see the drawing."""

from __future__ import annotations

from catalogue.exhibits.walls import HangingPlan, say
from catalogue.values.lengths import Unit


def describe_elevation(wall_name: str, plan: HangingPlan, unit: Unit = "in") -> str:
    """The elevation in sentences, for those who do not see it."""
    wall = plan.wall(wall_name)
    size = f"{say(wall.box.width, unit)} long and {say(wall.box.height, unit)} high"
    sentences = [f"The wall is {size}, drawn to scale."]
    for obstacle in wall.obstacles:
        box = obstacle.box
        sentences.append(
            f"{obstacle.called.capitalize()}, {say(box.width, unit)} wide and"
            f" {say(box.height, unit)} high, {say(box.x, unit)} from the left end and"
            f" {say(box.y, unit)} above the floor."
        )
    for hung in plan.on(wall_name):
        box = hung.box
        sentences.append(
            f"{hung.quilt.called}, {say(box.width, unit)} wide and {say(box.height, unit)} long,"
            f" {say(box.x, unit)} from the left end, upper edge {say(box.top, unit)} and lower"
            f" edge {say(box.y, unit)} above the floor."
        )
    if len(sentences) == 1 + len(wall.obstacles):
        sentences.append("No quilt hangs on it.")
    return " ".join(sentences)
