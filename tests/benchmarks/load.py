"""Twenty people editing and a hundred reading: whether anything fails or is lost, and who waits.

    python tests/benchmarks/load.py [--quilts 20000] [--editors 20] [--readers 100] [--seconds 120]
                                    [--pause 10] [--threads N] [--folder COLLECTION]

The catalogue is served by a process of its own, as `catalogue serve` does it, and asked over
loopback by this one. Everybody reads a while between pages: `--pause` is the mean in seconds, at
random (exponential); 0 asks for as much as the machine can bear. Editors open a section of a quilt,
change its text, save it, and every fifth time look for what they saved. They meet each other: the
quilts that are edited are ten times as many as the editors.

Ends with 1 where a request failed, or where a confirmed save is not found afterwards. With
`--folder` a collection made by an earlier run is copied and used; the copy is what is written to.
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import subprocess
import sys
import tempfile
import threading
import time
from collections import defaultdict
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from browsing import Browser, Seen, form_values
from pages import fill

from catalogue.collection import accounts
from catalogue.collection.checking import check
from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.search.indexing import SearchIndex
from catalogue.collection.store import history, load

SERVING = """
import sys
from catalogue import serving
from catalogue.cli import main
serving.THREADS = int(sys.argv[2]) or serving.THREADS
main(["serve", sys.argv[1], "--port", "0"])
"""
READ = (
    *("/", "/?as=table", "/?sort=date&page=20", "/search?q=winter", "/search?q=star+dress"),
    *("/search?q=star&from=1900&to=1920", "/patterns", "/patterns/1", "/publications/1"),
    *("/quilts/{id}",) * 9,  # whoever looks into a catalogue looks at quilts
)


# --- people ------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Shift:
    """How a person works: until when, with what pauses, on which quilts."""

    ends: float
    pause: float
    quilts: int
    edited: int

    def wait(self, chance: random.Random) -> bool:
        """Pause as long as a person would, and say whether the time is not up."""
        if self.pause:
            time.sleep(min(chance.expovariate(1 / self.pause), 4 * self.pause))
        return time.monotonic() < self.ends


def read_on(browser: Browser, shift: Shift, chance: random.Random) -> None:
    while shift.wait(chance):
        address = chance.choice(READ).format(id=chance.randrange(1, shift.quilts + 1))
        kind = "search" if "search" in address else "quilt" if "/quilts/" in address else "list"
        browser.get(address, f"reading: {kind}")


def edit_on(browser: Browser, shift: Shift, chance: random.Random, name: str, seen: Seen) -> None:
    for number in range(1_000_000):
        if not shift.wait(chance):
            return
        id, word = chance.randrange(1, shift.edited + 1), f"{name}x{number}"
        if not _save(browser, shift, chance, id, word, seen) or number % 5:
            continue
        # Somebody may have saved this quilt again since: then the word is rightly gone.
        found = browser.get(f"/search?q={word}", "editing: search")
        if "1 quilt" not in found.text and not _overwritten(id, word, seen):
            seen.fail(f"“{word}” was saved and is not found by searching.")


def _save(
    browser: Browser, shift: Shift, chance: random.Random, id: int, word: str, seen: Seen
) -> bool:
    """Write a word into a quilt's history, and say whether that was confirmed."""
    path = f"/quilts/{id}/edit/story"
    page = browser.get(path, "editing: form")
    if not page.text:
        return False
    values = dict(form_values(page.text))
    values["history"] = f"{word} {values.get('history', '')}"[:2000]
    shift.wait(chance)
    answer = browser.post(path, list(values.items()), "editing: save")
    with seen.lock:
        if answer.status == 302 and answer.location.startswith("/quilts/"):
            seen.saved.append((id, "history", word))
            return True
        if answer.status == 422 and "changed this meanwhile" in answer.text:
            seen.conflicts += 1
            return False
    seen.fail(f"A save of quilt {id} was answered by {answer.status}, {answer.location}")
    return False


def _overwritten(id: int, word: str, seen: Seen) -> bool:
    with seen.lock:
        later = [saved for quilt, _, saved in seen.saved if quilt == id]
    return later[-1] != word


# --- the run -----------------------------------------------------------------------------------


@contextmanager
def served(folder: Path, threads: int) -> Iterator[str]:
    """Serve a collection in a process of its own, and yield its address."""
    command = [sys.executable, "-c", SERVING, str(folder), str(threads)]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    try:
        line = next(line for line in process.stdout if "Serving at" in line)
        yield line.split()[2].rstrip("/")
    finally:
        process.terminate()
        process.wait()


def run(folder: Path, asked: argparse.Namespace) -> Seen:
    """Let everybody work at once, and return what they saw."""
    seen = Seen()
    before = _worked()
    with served(folder, asked.threads) as address:
        people = _people(address, folder, asked, seen)
        for person in people:
            person.start()
        for person in people:
            person.join()
    print(f"the server's processor was at work for {_worked() - before:.0f} s, starting included")
    return seen


def _worked() -> float:
    """Return the processor's seconds of processes that have ended; 0 on Windows."""
    if sys.platform == "win32":
        return 0.0
    import resource

    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def _people(
    address: str, folder: Path, asked: argparse.Namespace, seen: Seen
) -> list[threading.Thread]:
    collection = Collection.open(folder)
    quilts = collection.database.execute("SELECT count(*) FROM quilt").fetchone()[0]
    edited = min(quilts, 10 * asked.editors)
    editors = []
    for number in range(asked.editors):
        account = accounts.add(collection.database, f"Editor {number}", "historian")
        browser = Browser(address, seen)
        token = accounts.make_link_token(collection.database, account)
        browser.get(f"/sign-in/{token}", "signing in")
        editors.append(browser)
    collection.close()
    shift = Shift(time.monotonic() + asked.seconds, asked.pause, quilts, edited)
    people = [
        _person(seen, edit_on, browser, shift, random.Random(number), f"word{number}", seen)
        for number, browser in enumerate(editors)
    ]
    people += [
        _person(seen, read_on, Browser(address, seen), shift, random.Random(1000 + number))
        for number in range(asked.readers)
    ]
    return people


def _person(seen: Seen, work, *arguments) -> threading.Thread:  # type: ignore[no-untyped-def]
    def working() -> None:
        try:
            work(*arguments)
        except Exception as error:  # a person whose browser fails goes home, and says why
            seen.fail(f"{type(error).__name__}: {error}")

    return threading.Thread(target=working)


def lost(folder: Path, seen: Seen) -> list[str]:
    """Return every confirmed save that the history does not hold, or that the record denies."""
    collection = Collection.open(folder)
    missing = []
    by_quilt: defaultdict[int, list[str]] = defaultdict(list)
    for id, _, word in seen.saved:
        by_quilt[id].append(word)
    for id, words in by_quilt.items():
        changes = history(collection.database, Quilt, id)
        written = [change.after.get("history", "").split()[:1] for change in changes]
        missing += [f"“{word}” of quilt {id}" for word in words if [word] not in written]
        now = load(collection.database, Quilt, id).history.split()[:1]
        latest = next(words for words in written if words)
        missing += [f"quilt {id} does not stand as last saved"] * (now != latest)
    collection.close()
    return missing


def report(seen: Seen, seconds: float) -> None:
    asked = sum(map(len, seen.waits.values()))
    busy = f"; load average {os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else ""
    print(f"{asked} requests, {asked / seconds:.1f} a second{busy}")
    for kind in sorted(seen.waits):
        waits = sorted(1000 * wait for wait in seen.waits[kind])
        print(
            f"{kind:18} {len(waits):6} times   median {waits[len(waits) // 2]:7.0f} ms"
            f"   95 % {waits[int(0.95 * len(waits))]:7.0f} ms   longest {waits[-1]:7.0f} ms"
        )


def prepared(asked: argparse.Namespace, place: Path) -> Path:
    """Return a collection to write to, new or copied."""
    folder = place / "collection"
    if asked.folder is not None:
        shutil.copytree(asked.folder, folder)
        return folder
    collection = Collection.create(folder)
    collection.database.execute("PRAGMA synchronous = OFF")  # for the filling alone
    fill(collection, asked.quilts, random.Random(1))
    index = SearchIndex(collection)
    index.catch_up()
    index.close()
    collection.close()
    return folder


def main() -> int:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    for name, standard in (("quilts", 20_000), ("editors", 20), ("readers", 100), ("threads", 0)):
        parser.add_argument(f"--{name}", type=int, default=standard)
    parser.add_argument("--seconds", type=float, default=120)
    parser.add_argument("--pause", type=float, default=10)
    parser.add_argument("--folder", type=Path)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        folder = prepared(asked, Path(name))
        seen = run(folder, asked)
        missing = lost(folder, seen)
        report(seen, asked.seconds)
        findings = [f"{found.where}: {found.says}" for found in check(folder)]
    print(
        f"{len(seen.saved)} saves confirmed, {len(missing)} of them lost;"
        f" {seen.conflicts} told of a conflict; {len(seen.failures)} failures;"
        f" the check afterwards finds {len(findings)}"
    )
    for sentence in [*missing[:10], *seen.failures[:10], *findings[:10]]:
        print(f"  {sentence}")
    return 1 if missing or seen.failures or findings else 0


if __name__ == "__main__":
    sys.exit(main())
