"""Every reading of a record beside its value in the adjusted layout."""

from collections.abc import Iterator, Mapping

from catalogue.measurement.estimates import reading_lists
from catalogue.measurement.layouts import Dimensions, Layout, Reconciled
from catalogue.measurement.readings import TapeReadings


def reconcile(readings: TapeReadings, layout: Layout) -> tuple[Reconciled, ...]:
    """Each reading, its value after all are adjusted together by least squares, and the residual.

    Readings of parts that the layout does not have are left out. Inches.
    """
    adjusted = dict(_adjusted(readings, layout.dimensions))
    return tuple(
        Reconciled(
            f"{path}.{index}", float(reading), adjusted[path], float(reading) - adjusted[path]
        )
        for path, part in reading_lists(readings).items()
        if path in adjusted
        for index, reading in enumerate(part)
    )


def _adjusted(readings: TapeReadings, sizes: Dimensions) -> Iterator[tuple[str, float]]:
    yield "overall.width", sizes.overall.width
    yield "overall.length", sizes.overall.length
    if sizes.block is not None:
        yield "block.width", sizes.block.width
        yield "block.length", sizes.block.length
    if sizes.sashing:
        yield "sashing.width", sizes.sashing
    if sizes.binding:
        yield "binding.width", sizes.binding
    for index, border in enumerate(readings.borders or ()):
        if index < len(sizes.borders):
            shown: Mapping[str, float] = {
                side: getattr(sizes.borders[index], side) for side in border.sides
            }
            outermost = sizes.binding_within and index == len(sizes.borders) - 1
            yield f"borders.{index}.width", max(shown.values()) + sizes.binding * outermost
