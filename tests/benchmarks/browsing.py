"""A browser that counts what it asks, and reads the forms it is shown."""

from __future__ import annotations

import html
import http.client
import re
import threading
import time
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from urllib.parse import urlencode, urlsplit


@dataclass
class Seen:
    """What everybody together has seen; one lock, since many write to it."""

    lock: threading.Lock = field(default_factory=threading.Lock)
    waits: defaultdict[str, list[float]] = field(default_factory=lambda: defaultdict(list))
    saved: list[tuple[int, str, str]] = field(default_factory=list)  # quilt, field, text
    conflicts: int = 0
    failures: list[str] = field(default_factory=list)

    def wait(self, kind: str, seconds: float) -> None:
        with self.lock:
            self.waits[kind].append(seconds)

    def fail(self, says: str) -> None:
        with self.lock:
            self.failures.append(says)


@dataclass
class Answer:
    """A page, or where it sends on to."""

    status: int
    text: str
    location: str


class Browser:
    """One person's connection, kept open, with its cookies."""

    def __init__(self, address: str, seen: Seen) -> None:
        parts = urlsplit(address)
        assert parts.hostname is not None
        self._connection = http.client.HTTPConnection(parts.hostname, parts.port, timeout=60)
        self._cookies: dict[str, str] = {}
        self._seen = seen

    def get(self, path: str, kind: str) -> Answer:
        return self._ask("GET", path, kind, None)

    def post(self, path: str, values: list[tuple[str, str]], kind: str) -> Answer:
        return self._ask("POST", path, kind, urlencode(values).encode())

    def _ask(self, method: str, path: str, kind: str, body: bytes | None) -> Answer:
        headers = {"Cookie": "; ".join(f"{name}={value}" for name, value in self._cookies.items())}
        if body is not None:
            headers["Content-Type"] = "application/x-www-form-urlencoded"
        began = time.perf_counter()
        self._connection.request(method, path, body, headers)
        answer = self._connection.getresponse()
        text = answer.read().decode("utf-8", "replace")
        self._seen.wait(kind, time.perf_counter() - began)
        for value in answer.headers.get_all("Set-Cookie", []):
            name, _, rest = value.partition("=")
            self._cookies[name] = rest.partition(";")[0]
        if answer.status >= 400 and answer.status != 422:
            self._seen.fail(f"{method} {path}: {answer.status}")
        return Answer(answer.status, text, answer.headers.get("Location", ""))


_INPUT = re.compile(r"<input\b[^>]*>")
_TEXTAREA = re.compile(r"<textarea\b([^>]*)>\r?\n?(.*?)</textarea>", re.DOTALL)
_SELECT = re.compile(r"<select\b([^>]*)>(.*?)</select>", re.DOTALL)
_SELECTED = re.compile(r"<option\b[^>]*\bselected\b[^>]*>")


def form_values(page: str) -> Iterator[tuple[str, str]]:
    """Yield what a browser would send of a page's own form, untouched."""
    form = next(part for part in page.split("<form")[1:] if 'name="revision"' in part)
    for tag in _INPUT.findall(form.partition("</form>")[0]):
        kind = _attribute(tag, "type")
        if kind not in ("submit", "checkbox", "radio") or " checked" in tag:
            yield _attribute(tag, "name"), _attribute(tag, "value")
    for opening, text in _TEXTAREA.findall(form):
        yield _attribute(opening, "name"), html.unescape(text)
    for opening, options in _SELECT.findall(form):
        chosen = _SELECTED.search(options)
        yield _attribute(opening, "name"), _attribute(chosen.group(), "value") if chosen else ""


def _attribute(tag: str, name: str) -> str:
    found = re.search(rf'\b{name}="([^"]*)"', tag)
    return html.unescape(found.group(1)) if found else ""
