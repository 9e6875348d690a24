"""How many different lines a second `catalogue read dates` answers, plain words and EDTF.

Run: python tests/benchmarks/read_dates.py
The `edtf` library alone is timed beside it, on the EDTF lines.
"""

import json
import time
from collections.abc import Callable, Iterator

from edtf import parse_edtf

from catalogue.values import edtf_guard
from catalogue.values.dates import answer_date

LINES = 1000

WORDS = (
    "c. {y}",
    "{y}-{e:02d}",
    "early {d}s",
    "{d}s-{f}s",
    "between {y} and {z}",
    "{y} or {z}",
    "probably before {y}",
    "June {n}, {y}",
    "{n}/4/{y}",
    "late {c}th to early {k}th century, perhaps {y}",
    "top {y}; quilted {z}",
    "something of {y}",
)
EDTF = (
    "{y}",
    "{y}~",
    "{y}-06-{n:02d}",
    "{y}/{z}",
    "{y}-06~/{z}-0{m}",
    "[{y},{z}]",
    "{{{y},{z}-1{o}}}",
    "?{y}-0{m}-~{n:02d}",
    "{y}-1X",
    "Y{y}{z}",
    "../{y}-{n:02d}",
    "{y}-{s}",
)


def lines(forms: tuple[str, ...]) -> Iterator[str]:
    """Different lines of these forms, without end."""
    number = 0
    while True:
        year = 1700 + number % 290
        yield forms[number % len(forms)].format(
            y=year,
            z=year + 1 + number % 40,
            e=(year + number) % 100,
            d=year // 10 * 10,
            f=year // 10 * 10 + 10,
            c=18 + number % 2,
            k=20,
            n=1 + number % 12,
            m=1 + number % 9,
            o=number % 3,
            s=21 + number % 21,
        )
        number += 1


def different(forms: tuple[str, ...]) -> list[str]:
    """The first thousand lines of these forms that differ from one another."""
    found: dict[str, None] = {}
    for line in lines(forms):
        found[line] = None
        if len(found) == LINES:
            return list(found)
    return []


def seconds(work: Callable[[], object]) -> float:
    """Time of one run."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def answered(texts: list[str], edtf_only: bool) -> list[str]:
    """The lines printed."""
    return [json.dumps(answer_date(text, edtf_only), ensure_ascii=False) for text in texts]


def alone(texts: list[str]) -> None:
    """The library, crashes and refusals included."""
    for text in texts:
        try:
            parse_edtf(text)
        except (ValueError, TypeError, AttributeError):
            continue


def main() -> None:
    """Print lines a second for both kinds, and the ratio to the library alone."""
    words, edtf = different(WORDS), different(EDTF)
    edtf_guard.library_reads("1904")  # silences the library, which prints its own crashes
    for name, texts, edtf_only in (("plain words", words, False), ("EDTF", edtf, True)):
        edtf_guard.library_reads.cache_clear()
        cold = seconds(lambda t=texts, e=edtf_only: answered(t, e))
        warm = seconds(lambda t=texts, e=edtf_only: answered(t, e))
        print(f"{name}: {LINES / cold:.0f} lines/s the first time, {LINES / warm:.0f} after")
    library = seconds(lambda: alone(edtf))
    print(f"the edtf library alone: {LINES / library:.0f} lines/s")


if __name__ == "__main__":
    main()
