"""Making a copy while people work, verifying it, and letting old ones go."""

from __future__ import annotations

import shutil
from datetime import UTC, datetime
from pathlib import Path

from catalogue.collection import settings
from catalogue.collection.database import CollectionError
from catalogue.collection.folder import DATABASE
from catalogue.collection.safekeeping import copies, packing
from catalogue.collection.safekeeping.bags import PAYLOAD, Progress
from catalogue.collection.safekeeping.claims import claimed
from catalogue.collection.safekeeping.copies import Copy
from catalogue.collection.safekeeping.rotation import KeepPolicy, kept
from catalogue.collection.trouble import explained
from catalogue.collection.whole_files import MAKING, make_folder, whole_folder


def make_copy(folder: Path, into: Path, progress: Progress) -> Copy:
    """Copy the collection in `folder` into a new folder below `into`, and verify it.

    Only a copy that was verified gets its name; older copies go by the collection's policy, but
    only while nothing is amiss with the collection. Raises CollectionError; nothing is left then.
    """
    with explained(f"No copy was made in “{into}”"):
        make_folder(into)
        with claimed(into, "a copy is being made"):
            _sweep(into)
            made = datetime.now(UTC)
            final = into / copies.name_of(copies.next_number(into), made)
            with whole_folder(final) as making:
                policy = _fill(folder, making, copies.copies_in(into), progress)
            copy = copies.copy_at(final)
            assert copy is not None
            if not copy.findings:
                _let_go(into, policy)
            return copy


def _fill(folder: Path, making: Path, earlier: list[Copy], progress: Progress) -> KeepPolicy:
    """Fill and verify a copy; return the policy of keeping that it holds."""
    packing.snapshot(folder, making / PAYLOAD / DATABASE)
    with packing.opened(making / PAYLOAD / DATABASE) as database:
        held = packing.contents(database, folder)
        policy = settings.keep_policy(database)
    whole = next((copy.folder for copy in earlier if copy.is_whole), None)
    # The second time only where a file that the copies share turns out to be damaged by now.
    for shared_with in (whole, None):
        lacking = packing.place_photographs(folder, making, held.originals, shared_with)
        faults = packing.close(making, held, lacking, progress)
        if not faults:
            copies.keep_verdict(making, faults)
            return policy
    raise CollectionError(f"No copy was made, and the earlier ones stay. {faults[0]}")


def _sweep(into: Path) -> None:
    """Remove what a making or a removing that was cut off has left."""
    for path in into.iterdir():
        if path.name.endswith((MAKING, copies.GOING)):
            shutil.rmtree(path, ignore_errors=True)


def _let_go(into: Path, policy: KeepPolicy) -> None:
    """Remove the copies that the policy does not keep; a damaged one is no reason to remove any."""
    whole = [copy for copy in copies.copies_in(into) if copy.is_whole]
    staying = kept((copy.dated for copy in whole), policy)
    for copy in whole:
        if copy.number not in staying:
            going = copy.folder.with_name(copy.folder.name + copies.GOING)
            copy.folder.rename(going)
            shutil.rmtree(going, ignore_errors=True)
