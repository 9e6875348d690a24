"""What is read from simulated photographs, in tables; time and memory of `catalogue photo`.

Run: python tests/benchmarks/photographs.py [quilts, 240 if not told]
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "photographs")]

import measured  # noqa: E402
import simulator  # noqa: E402

PIXELS = 5656  # on the longer side: 24 megapixels at 5 to 4, as the simulator frames them


def main(quilts: int) -> None:
    command()
    known = measured.outcomes(quilts)
    print("", *measured.layout_table(known), "", *measured.turned_table(known), sep="\n")
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
    photograph = simulator.photograph(1, side=PIXELS, quality=90)
    corners = [f"{x:.1f},{y:.1f}" for x, y in photograph.corners]
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "quilt.jpg"
        file.write_bytes(photograph.data)
        run = "import sys; from catalogue.cli import main; sys.exit(main())"
        words = [sys.executable, "-c", run, "photo", str(file), "--corners", *corners]
        times = []
        for _ in range(3):
            start = time.perf_counter()
            subprocess.run(
                words,
                check=True,
                stdout=subprocess.DEVNULL,
                env={**os.environ, "PYTHONPATH": str(ROOT)},
            )
            times.append(time.perf_counter() - start)
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    print(f"catalogue photo, 24 megapixels: {min(times):.2f} s at best, {max(times):.2f} at worst")
    print(f"peak memory: {peak:.0f} MB")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 240)
