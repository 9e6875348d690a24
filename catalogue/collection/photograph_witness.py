"""A photograph as one more witness of a quilt's layout, and what a person decides on its blocks."""

from __future__ import annotations

from dataclasses import dataclass, replace

from catalogue.collection.layouts import chosen
from catalogue.collection.records import Photograph, Quilt, TurnedBlock
from catalogue.collection.store import now
from catalogue.measurement.layouts import Layout
from catalogue.photographs import reading
from catalogue.photographs.reading import PhotographReading

CONFIRMED = "confirmed"
_TURNS = {
    "90": "turned a quarter clockwise",
    "180": "turned on its head",
    "270": "turned a quarter counter-clockwise",
    "mirrored": "mirrored",
}


@dataclass(frozen=True)
class Witnesses:
    """The layout by the tape and by the photograph; `differ` names in what they disagree."""

    tape: Layout | None
    seen: PhotographReading
    differ: tuple[str, ...]

    @property
    def agree(self) -> bool:
        """True where both know the layout, and it is the same."""
        return self.tape is not None and self.seen.setting is not None and not self.differ


def witnesses(quilt: Quilt, seen: PhotographReading) -> Witnesses:
    """Return the photograph's layout beside the one that stands for the quilt."""
    standing = chosen(quilt)
    tape = standing.layout if standing is not None else None
    if tape is None or seen.setting is None:
        return Witnesses(tape, seen, ())
    pairs = {
        "the setting": (tape.setting, seen.setting),
        "the sashing": (tape.sashing, seen.sashing),
        "the columns": (tape.columns, seen.columns),
        "the rows": (tape.rows, seen.rows),
    }
    return Witnesses(tape, seen, tuple(name for name, (a, b) in pairs.items() if a != b))


def layout_in_words(seen: PhotographReading) -> str:
    """Return the layout a photograph shows as one line: "5 × 6, straight, sashing between"."""
    if seen.setting is None:
        return "no repeat"
    sashed = {"none": "no sashing", "between": "sashing between", "framed": "sashing all round"}
    return f"{seen.columns} × {seen.rows}, {seen.setting}, {sashed[seen.sashing or 'none']}"


def feature_in_words(block: TurnedBlock | reading.TurnedBlock) -> str:
    """Return the sentence that a turned block is as a distinguishing feature."""
    if isinstance(block, TurnedBlock):
        across, down = block.across, block.down
    else:
        across, down = block.column, block.row
    return f"The block {across} from the left and {down} from the top is {_TURNS[block.turn]}."


def decision_on(photograph: Photograph, block: reading.TurnedBlock) -> TurnedBlock | None:
    """Return what was decided last about this block turned this way, None where nothing was."""
    return next(
        (
            each
            for each in reversed(photograph.turned_blocks)
            if (each.across, each.down, each.turn) == (block.column, block.row, block.turn)
        ),
        None,
    )


def decided(
    quilt: Quilt, photograph: Photograph, block: reading.TurnedBlock, decision: str, by: str
) -> Quilt:
    """Return the quilt with a decision about a block; confirmed, it is a distinguishing feature.

    Dismissing it afterwards takes the sentence out again, unless somebody has rewritten it.
    """
    made = TurnedBlock(block.column, block.row, block.turn, decision, by, now())
    kept = tuple(
        each
        for each in photograph.turned_blocks
        if (each.across, each.down, each.turn) != (block.column, block.row, block.turn)
    )
    changed = replace(photograph, turned_blocks=(*kept, made))
    photographs = tuple(changed if p.id == photograph.id else p for p in quilt.photographs)
    features = _with_sentence(
        quilt.distinguishing_features, feature_in_words(made), decision == CONFIRMED
    )
    return replace(quilt, photographs=photographs, distinguishing_features=features)


def _with_sentence(text: str, sentence: str, wanted: bool) -> str:
    """Return the text with the sentence in it once, or not at all."""
    if wanted:
        return text if sentence in text else f"{text} {sentence}".strip()
    return text.replace(f" {sentence}", "").replace(sentence, "").strip()
