"""How long the estimate of one phase takes, by the number of clues ticked on it.

Run: python tests/benchmarks/dating.py
"""

import statistics
import time

from catalogue.dating.clues import ClueReading, clue_table, inscription
from catalogue.dating.drawing import draw_estimate
from catalogue.dating.estimate import estimate
from catalogue.dating.posterior import Weights
from catalogue.dating.shapes import curve

ROUNDS = 40


def milliseconds(readings: list[ClueReading]) -> list[float]:
    """Sorted times of the estimate, curves kept between rounds as in a running program."""
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        estimate(readings, known_by=2020)
        times.append((time.perf_counter() - start) * 1e3)
    return sorted(times)


def main() -> None:
    """Print median, worst and first time for 1 to 30 clues, and the time of a drawing."""
    clues = [clue for clue in clue_table().values() if clue.begins]
    for count in (1, 5, 10, 12, 20, 30):
        readings = [ClueReading(clue) for clue in clues[-count:]]
        readings[0] = ClueReading(inscription(1936))
        curve.cache_clear()
        start = time.perf_counter()
        found = estimate(readings, known_by=2020)
        first = (time.perf_counter() - start) * 1e3
        times = milliseconds(readings)
        print(
            f"{count:2d} clues: median {statistics.median(times):.2f} ms, "
            f"worst {times[-1]:.2f} ms, first {first:.2f} ms"
        )
    curves = [curve(reading.effective, reading.sure) for reading in readings]
    start = time.perf_counter()
    Weights.of(curves).chances(2020)
    print(f"the posterior alone, 30 clues: {(time.perf_counter() - start) * 1e3:.2f} ms")
    start = time.perf_counter()
    draw_estimate(found)
    print(f"drawing: {(time.perf_counter() - start) * 1e3:.2f} ms")


if __name__ == "__main__":
    main()
