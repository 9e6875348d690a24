"""Keeping a photograph of 24 megapixels: time against a full decode, and the memory it takes.

    python tests/benchmarks/photographs_keeping.py

Prints the ratio of making every smaller picture to decoding the original in full with Pillow, both
in this run, for files of three sizes; then the peak memory of a process that does nothing else. The
bars: under 1.5 times, under 600 MB.
"""

from __future__ import annotations

import io
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

import numpy as np
from PIL import Image

from catalogue.photographs.derivatives import derive, examine

SAMPLE = Path(__file__).parents[2] / "sample_collection" / "photographs" / "1986.7-overall.jpg"
SIZE = (6000, 4000)
# Noise of the sensor in levels, JPEG quality, subsampling: what telephones and cameras write.
KINDS = {"telephone": (4, 92, 2), "camera": (10, 92, 2), "camera, finest": (8, 95, 0)}


def photograph(noise: float, quality: int, subsampling: int) -> bytes:
    """A JPEG of 24 megapixels with this much noise in it."""
    with Image.open(SAMPLE) as opened:
        large = opened.convert("RGB").resize(SIZE, Image.Resampling.BICUBIC)
    random = np.random.default_rng(1)
    pixels = np.array(large, np.int16)
    for channel in range(3):
        pixels[..., channel] += random.normal(0, noise, pixels.shape[:2]).astype(np.int16)
    buffer = io.BytesIO()
    shown = Image.fromarray(np.clip(pixels, 0, 255).astype(np.uint8))
    shown.save(buffer, "JPEG", quality=quality, subsampling=subsampling)
    return buffer.getvalue()


def in_turns(works: dict[str, Callable[[], object]], rounds: int = 9) -> dict[str, float]:
    """The median time of each in seconds, all of them run in turns."""
    taken: dict[str, list[float]] = {name: [] for name in works}
    for _ in range(rounds):
        for name, work in works.items():
            began = time.perf_counter()
            work()
            taken[name].append(time.perf_counter() - began)
    return {name: median(times) for name, times in taken.items()}


def main() -> None:
    for kind, wanted in KINDS.items():
        data = photograph(*wanted)
        works = {
            "full": lambda data=data: Image.open(io.BytesIO(data)).load(),
            "made": lambda data=data: derive(data),
            "looked": lambda data=data: examine(data),
        }
        took = {name: 1000 * seconds for name, seconds in in_turns(works).items()}
        print(
            f"{kind:15} {len(data) / 1e6:5.1f} MB: full decode {took['full']:4.0f} ms, six smaller"
            f" pictures {took['made']:4.0f} ms ({took['made'] / took['full']:.2f} x), examined"
            f" {took['looked']:4.0f} ms"
        )
    with tempfile.NamedTemporaryFile(suffix=".jpg") as file:
        file.write(data)
        file.flush()
        subprocess.run([sys.executable, __file__, "memory", file.name], check=True)


def tell_memory(file: Path) -> None:
    """Examine and derive once, and print the peak of this process."""
    data = file.read_bytes()
    examine(data)
    derive(data)
    print(f"peak memory {_peak():.0f} MB")


def _peak() -> float:
    """The most memory this program has held, in MB, without what its parent held before."""
    status = Path("/proc/self/status")
    if not status.exists():
        return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    (line,) = (line for line in status.read_text().splitlines() if line.startswith("VmHWM"))
    return int(line.split()[1]) / 1024


if __name__ == "__main__":
    if sys.argv[1:2] == ["memory"]:
        tell_memory(Path(sys.argv[2]))
    else:
        main()
