"""What the copies hold of the record."""

from __future__ import annotations

from catalogue.collection.folder import Collection
from catalogue.collection.safekeeping.copies import copies_in


def is_copied(collection: Collection, quilt: int) -> bool:
    """Say whether a verified copy in the collection's own folder holds a quilt as it now is."""
    copies = copies_in(collection.folder / "backups")
    newest = max((copy.made for copy in copies if copy.is_whole), default=None)
    if newest is None:
        return False
    (last,) = collection.database.execute(
        "SELECT max(at) FROM change WHERE subject = 'quilt' AND subject_id = ?", [quilt]
    ).fetchone()
    # Both are of one clock, to the second; what was saved in that very second does not count.
    return last is not None and last < newest.strftime("%Y-%m-%dT%H:%M:%SZ")
