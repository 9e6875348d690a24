"""A record as it may have been meant: as written, or with one blunder put right."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import log, pi
from typing import Final

from catalogue.measurement.estimates import (
    Measures,
    measures,
    reading_lists,
    scatter_of,
    tape_rounding,
)
from catalogue.measurement.layouts import CautionKind
from catalogue.measurement.misreadings import (
    WRONG_UNIT,
    Version,
    habit,
    log_scatter,
    plainest,
    unit_factor,
    versions,
)
from catalogue.measurement.readings import TapeReadings

SWAPPED: Final = 0.006
BLOCK_SWAPPED: Final = 0.002
WRONG_RECORD: Final = 0.001  # every reading in the unit that the record does not say
COUNTED_TWICE: Final = 0.02
BOTH_SIDES_ADDED: Final = 0.006
MOVED: Final = 0.8  # times the usual scatter: how far a mean must move to matter to the fit
UNLIKELY: Final = -12.0  # natural logarithm, against the likeliest version of a list


@dataclass(frozen=True, slots=True)
class Variant:
    """One way to take the record: its lists of readings, and what is put right in them.

    `evidence` is the logarithm of its prior and of how its lists scatter. `kind` is None where
    nothing is put right beside what the lists show by themselves.
    """

    readings: TapeReadings
    versions: Mapping[str, Version]
    evidence: float
    kind: CautionKind | None = None
    about: str = ""

    def measures(self, rounding: float) -> Measures:
        """The estimates this way of taking the record leads to."""
        lists = {path: version.values for path, version in self.versions.items()}
        spare = {path: version.spare for path, version in self.versions.items() if version.spare}
        return measures(self.readings, lists, rounding, spare)


class Record:
    """One quilt's readings with every version of every list."""

    def __init__(self, readings: TapeReadings) -> None:
        self.readings = readings
        self.rounding = tape_rounding(readings)
        self.lists = reading_lists(readings)
        self.versions = {
            path: versions(part, self._scatter(path), readings.unit)
            for path, part in self.lists.items()
        }

    def _scatter(self, path: str) -> float:
        scatter = scatter_of(path)
        return float((scatter * scatter + self.rounding) ** 0.5)

    @cached_property
    def likeliest(self) -> Variant:
        """Every list as written, or with the one reading put right that its fellows disown."""
        chosen = {path: plainest(found) for path, found in self.versions.items()}
        evidence = sum(version.evidence for version in chosen.values())
        return Variant(self.readings, chosen, evidence)

    def variants(self) -> Iterator[Variant]:
        """The record with one thing more put right, in no order."""
        yield from self._one_list()
        yield from self._two_lists("overall", SWAPPED)
        yield from self._two_lists("block", BLOCK_SWAPPED)
        yield from self._borders()
        read = [path for path, part in self.lists.items() if part]
        if len({self.lists[path][0].unit for path in read}) == 1:
            yield self._in_other_unit(read, "unit", WRONG_RECORD)

    def _one_list(self) -> Iterator[Variant]:
        base = self.likeliest
        for path, found in self.versions.items():
            start = base.versions[path]
            for version in found:
                near = version.evidence > start.evidence + UNLIKELY
                if version is not start and near and self._moves(path, version):
                    yield self._with({path: version}, base, version.kind, path)

    def _moves(self, path: str, version: Version) -> bool:
        """Whether taking a list so changes its mean enough to matter to the fit."""
        if version.spare or not version.values:
            return True
        mean = sum(version.values) / len(version.values)
        return abs(mean - (self._mean(path) or 0.0)) > MOVED * self._scatter(path)

    def _with(
        self,
        changed: Mapping[str, Version],
        base: Variant,
        kind: CautionKind | None,
        about: str,
        prior: float = 0.0,
    ) -> Variant:
        evidence = base.evidence + prior
        for path, version in changed.items():
            evidence += version.evidence - base.versions[path].evidence
        return Variant(self.readings, {**base.versions, **changed}, evidence, kind, about)

    def _two_lists(self, part: str, swapped: float) -> Iterator[Variant]:
        """Width and length exchanged, or both in the other unit."""
        base = self.likeliest
        paths = f"{part}.width", f"{part}.length"
        width, length = (base.versions[path] for path in paths)
        if not (width.values and length.values):
            return
        exchanged = {paths[0]: length, paths[1]: width}
        if width.values != length.values:
            yield self._with(exchanged, base, "swapped", paths[0], log(swapped))
        yield self._in_other_unit(paths, paths[0], WRONG_UNIT)

    def _in_other_unit(self, paths: Sequence[str], about: str, prior: float) -> Variant:
        """All lists at `paths` in centimetres for inches, or the other way round."""
        base = self.likeliest
        scaled = {
            path: self._scaled(path, base.versions[path], unit_factor(self.lists[path][0]))
            for path in paths
        }
        told = sum(habit(self.lists[path]) for path in paths)
        return self._with(scaled, base, "wrong unit", about, log(prior) + told)

    def _scaled(self, path: str, version: Version, factor: float) -> Version:
        """The list in the other unit, its scatter in that unit too."""
        values, scatter = tuple(value * factor for value in version.values), self._scatter(path)
        evidence = version.evidence + len(values) * log(factor)
        evidence += log_scatter(values, scatter) - log_scatter(version.values, scatter)
        return replace(version, values=values, evidence=evidence)

    def _borders(self) -> Iterator[Variant]:
        """One border entered twice, or measured as both sides together."""
        base = self.likeliest
        for index in range(len(self.readings.borders or ())):
            path = f"borders.{index}.width"
            if not base.versions[path].values:
                continue
            halved = replace(
                base.versions[path], values=tuple(v / 2 for v in base.versions[path].values)
            )
            yield self._with({path: halved}, base, "counted twice", path, log(BOTH_SIDES_ADDED / 2))
            if index and self._repeats(index):
                yield self._without_border(index)

    def _repeats(self, index: int) -> bool:
        """Whether a border is as wide as the one inside it, on some of the same sides."""
        borders = self.readings.borders or ()
        inner, outer = (self._mean(f"borders.{at}.width") for at in (index - 1, index))
        if inner is None or outer is None:
            return False
        shared = set(borders[index].sides) & set(borders[index - 1].sides)
        return bool(shared) and abs(inner - outer) < 0.4

    def _mean(self, path: str) -> float | None:
        values = self.likeliest.versions[path].values
        return sum(values) / len(values) if values else None

    def _without_border(self, index: int) -> Variant:
        base, path = self.likeliest, f"borders.{index}.width"
        borders = list(self.readings.borders or ())
        del borders[index]
        kept = dict(base.versions)
        for at in range(index, len(borders)):
            kept[f"borders.{at}.width"] = kept[f"borders.{at + 1}.width"]
        kept.pop(f"borders.{len(borders)}.width")
        scatter = self._scatter(path)
        off = (self._mean(path) or 0.0) - (self._mean(f"borders.{index - 1}.width") or 0.0)
        again = -0.25 * off * off / scatter**2 - 0.5 * log(4 * pi * scatter**2)
        readings = replace(self.readings, borders=tuple(borders))
        evidence = base.evidence + log(COUNTED_TWICE) + again
        return Variant(readings, kept, evidence, "counted twice", path)
