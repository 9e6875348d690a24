"""How long `catalogue infer` takes a quilt, whole, lacking or spoilt, and where the time goes.

Run: python tests/benchmarks/infer.py [quilts, 2000 unless given]

Times are of the processor, on one core, so that other work on the machine does not show.
"""

import cProfile
import json
import pstats
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parent.parent / "measurement"))

from simulate import Quilt, Record, draw, read
from spoil import WAYS

from catalogue.measurement.lines import answer_line

Change = Callable[[Record, Quilt, Random], Record | None]

# Functions by whose own and inner time the work is told apart, in the order of the work.
PARTS = {
    "reading the record": ("readings.py", "read_readings"),
    "versions of each list": ("variants.py", "__init__"),
    "candidates, roughly": ("weighing.py", "roughly_weighed"),
    "candidates, closely": ("weighing.py", "closely_weighed"),
    "layouts and grounds": ("proposals.py", "layouts"),
    "the next reading": ("next_reading.py", "measure_next"),
    "cautions": ("cautions.py", "cautions"),
}


def whole(record: Record, quilt: Quilt, rng: Random) -> Record:
    """Every part measured, nothing amiss."""
    return record


def lacking_sashing(record: Record, quilt: Quilt, rng: Random) -> Record | None:
    """Strips there, but not measured."""
    if record["sashing"]:
        record["sashing"]["width"] = []
    return record if quilt.sash else None


def lacking_border(record: Record, quilt: Quilt, rng: Random) -> Record | None:
    """A border there, but not measured."""
    if record["borders"]:
        record["borders"][0]["width"] = []
    return record if quilt.borders else None


def spoilt(record: Record, quilt: Quilt, rng: Random) -> Record | None:
    """One blunder of any kind."""
    found = rng.choice(WAYS)(record, quilt, rng)
    return found.record if found else None


def lines(count: int, change: Change, seed: int = 7) -> Iterator[str]:
    """Records as they stand in a file."""
    rng = Random(seed)
    while count:
        quilt = draw(rng)
        record = change(read(quilt, rng), quilt, rng)
        if record is not None:
            count -= 1
            yield json.dumps(record)


def timed(records: list[str]) -> list[float]:
    """Milliseconds for each record, shortest first."""
    times = []
    for record in records:
        start = time.process_time()
        json.dumps(answer_line(record))
        times.append((time.process_time() - start) * 1e3)
    return sorted(times)


def shares(records: list[str]) -> dict[str, float]:
    """The share of all time that each part of the work takes, its calls of other parts included."""
    profile = cProfile.Profile()
    profile.enable()
    for record in records:
        answer_line(record)
    profile.disable()
    stats = pstats.Stats(profile)
    total = stats.total_tt  # type: ignore[attr-defined]
    found = dict.fromkeys(PARTS, 0.0)
    for (file, _, function), (_, _, _, inner, _) in stats.stats.items():  # type: ignore[attr-defined]
        for part, (module, named) in PARTS.items():
            if function == named and file.endswith(f"measurement/{module}"):
                found[part] += inner / total
    return found


def main() -> None:
    """Print the median and 95th percentile of each kind of record, the total, and the shares."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    for change, some in ((whole, count), *((c, count // 5) for c in _OTHERS)):
        times = timed(list(lines(some, change)))
        print(
            f"{change.__name__:16s} {some} quilts: median {times[some // 2]:.2f} ms,"
            f" 95th percentile {times[int(some * 0.95)]:.2f} ms, together {sum(times) / 1e3:.2f} s"
        )
    for part, share in shares(list(lines(max(1, count // 10), whole))).items():
        print(f"  {part:24s} {share:.0%}")


_OTHERS = (lacking_sashing, lacking_border, spoilt)

if __name__ == "__main__":
    main()
