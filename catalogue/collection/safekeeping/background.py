"""Long work beside the pages: one task at a time, in a thread of its own."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable
from dataclasses import dataclass

from catalogue.collection.database import CollectionError
from catalogue.collection.store import now

_FAILED = "It failed for a reason that the catalogue does not know; it has been noted in the log."


@dataclass(frozen=True)
class Outcome:
    """What came of a task: when it ended, whether it succeeded, and one sentence."""

    at: str
    succeeded: bool
    says: str


class Background:
    """Runs one task at a time and remembers what came of the last one."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._thread: threading.Thread | None = None
        self.doing = ""
        self.last: Outcome | None = None

    def start(self, doing: str, task: Callable[[], str]) -> bool:
        """Begin a task that ends with a sentence; False where another one is running."""
        with self._lock:
            if self.doing:
                return False
            self.doing, self.last = doing, None
        self._thread = threading.Thread(target=self._run, args=[task], daemon=True)
        self._thread.start()
        return True

    def wait(self, seconds: float) -> None:
        """Wait for the task that is running, but not longer than this."""
        if self._thread is not None:
            self._thread.join(seconds)

    def _run(self, task: Callable[[], str]) -> None:
        try:
            outcome = Outcome(now(), True, task())
        except CollectionError as error:
            outcome = Outcome(now(), False, str(error))
        except Exception:
            logging.getLogger(__name__).exception("A task in the background failed.")
            outcome = Outcome(now(), False, _FAILED)
        with self._lock:
            self.doing, self.last = "", outcome
