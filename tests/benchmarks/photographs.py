"""What is read from simulated photographs, in tables; time and memory of `catalogue photo`.

Run: python tests/benchmarks/photographs.py [quilts, 240 if not told]
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "photographs")]

import measured  # noqa: E402
import simulator  # noqa: E402

ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT)}
RUN = """
import atexit, resource, sys
from catalogue.cli import main

def used():
    spent = resource.getrusage(resource.RUSAGE_SELF)
    print(spent.ru_utime + spent.ru_stime, spent.ru_maxrss, file=sys.stderr)

atexit.register(used)
main()
"""
PIXELS = 5656  # on the longer side: 24 megapixels at 5 to 4, as the simulator frames them


def main(quilts: int) -> None:
    command()
    sys.stdout.flush()
    known = measured.outcomes(quilts)
    print("", *measured.layout_table(known), "", *measured.turned_table(known), sep="\n")
    print("", *measured.calibration_table(known), sep="\n")
    right = measured.share(each.layout_right for each in known)
    kept = measured.found_share(known, measured.keeps_places)
    plainly = measured.found_share(known, lambda e: measured.keeps_places(e) and e.plainly)
    overlapping = measured.found_share(known, lambda e: not measured.keeps_places(e))
    print(f"\nlayouts right                                {right:.1%} of {len(known)}")
    print(f"turned, light and dark in their places       {kept:.1%}")
    print(f"  where a tenth of the block changes places  {plainly:.1%}")
    print(f"turned, values overlapping                   {overlapping:.1%}")
    print(f"false alarms                                 {measured.false_alarms(known):.1%}")
    for kind, share in measured.without_repeat(quilts // 4).items():
        print(f"{kind:45}{share:.1%} read as without a repeat")
    for each in known:
        if not each.layout_right or (each.turned and not each.found):
            print(each)


def command() -> None:
    """`catalogue photo` on a photograph of 24 megapixels, three times."""
    # Drawn in a process of its own, so that its memory is not counted.
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as studio:
        photograph = studio.submit(simulator.photograph, 1, side=PIXELS, quality=90).result()
    corners = [f"{x:.1f},{y:.1f}" for x, y in photograph.corners]
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "quilt.jpg"
        file.write_bytes(photograph.data)
        words = [sys.executable, "-c", RUN, "photo", str(file), "--corners", *corners]
        for _ in range(3):
            start = time.perf_counter()
            run = subprocess.run(words, check=True, capture_output=True, text=True, env=ENVIRONMENT)
            passed = time.perf_counter() - start
            worked, kilobytes = run.stderr.split()
            print(
                f"catalogue photo, 24 megapixels: {passed:.2f} s, of which {float(worked):.2f} s of"
                f" processors, at most {int(kilobytes) // 1024} MB"
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 240)
