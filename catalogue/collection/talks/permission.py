"""Pictures that may be shown: those whose rights somebody has looked into and written down."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.collection.records import Photograph, Quilt, RelatedItem
from catalogue.collection.talks.programme import Programme, Turn
from catalogue.collection.talks.remarks import Remark


def picture_to_show(turn: Turn) -> Photograph | None:
    """Return the picture that may be shown of an item: with rights on record, overall if it can be.

    None where there is no picture, or no permission for any.
    """
    if not isinstance(turn.subject, Quilt | RelatedItem):
        return None
    allowed = [photo for photo in turn.subject.photographs if photo.rights]
    overall = [photo for photo in allowed if photo.view == "overall"]
    return next(iter([*overall, *allowed]), None)


def credit_of(photograph: Photograph) -> str:
    """Return whose picture it is and on what terms it is shown."""
    return "; ".join(part for part in (photograph.photographer, photograph.rights) if part)


def picture_remarks(programme: Programme) -> Iterator[Remark]:
    """Yield the items of which no picture may be shown, and those that have none."""
    for turn in programme.turns:
        if not isinstance(turn.subject, Quilt | RelatedItem) or picture_to_show(turn) is not None:
            continue
        if turn.subject.photographs:
            says = (
                f"No picture of “{turn.title}” may be shown: no permission is on record. Slides and"
                " handout leave it out until the rights are written down."
            )
            yield Remark("pictures", says, "rights of its photographs", serious=True)
        elif turn.quilt is not None:
            yield Remark("pictures", f"There is no photograph of “{turn.title}”.", "the record")
