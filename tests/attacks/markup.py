"""Pages read as a browser would read them, and what in them could act."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

import pypdf

# What an attacker would like to have on a page: every way out of text, attribute, address.
MARK = "xplanted"
HOSTILE = (
    f"<script>{MARK}()</script><{MARK}></{MARK}><img src=x onerror={MARK}()>"
    f'"><svg onload={MARK}()>\' {MARK}=1 " {MARK}=1 onfocus={MARK}() autofocus x="'
    f" [a](javascript:{MARK}()) [b](data:text/html,{MARK}) <javascript:{MARK}()>"
    f' </title></textarea></style></script><!-- {{{{ 1234*4321 }}}} {{% raw %}} #panic("{MARK}")'
)
# The product of the sum above: it would only be there if a template had worked it out.
WORKED_OUT = "5332114"

_ACTS = {"iframe", "object", "embed", "base", "applet", "frame", "frameset", "style", "math"}
_ADDRESSES = {"href", "src", "action", "formaction", "xlink:href", "poster", "data", "background"}
# What browsers take away from an address before they read it (url.spec.whatwg.org).
_STRIPPED = "".join(map(chr, range(0x21)))
_HARMLESS = re.compile(r"(https?:|mailto:|/(?!/)|#|\?|[\w.-]+(/|$)|[\w.-]+ |$)", re.IGNORECASE)


@dataclass
class Form:
    """A form of a page: where it leads, how, and its fields with what stands in them."""

    action: str
    method: str
    fields: list[tuple[str, str, str]] = field(default_factory=list)  # name, type, value
    wrong: set[str] = field(default_factory=set)

    def values(self) -> list[tuple[str, str]]:
        """What a browser would send without touching anything but the first button."""
        sent, button = [], False
        for name, type, value in self.fields:
            if type in ("file", "image") or (type == "submit" and button):
                continue
            button = button or type == "submit"
            if type not in ("checkbox", "radio"):
                sent.append((name, value))
        return sent


def _as_link(tag: str, address: str) -> str:
    """Return the address; that of a link to another house may leave its scheme out."""
    return f"https:{address}" if tag == "a" and address.startswith("//") else address


class Page(HTMLParser):
    """What a page holds: its forms, its links, and everything in it that could act."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.acts: list[str] = []
        self.forms: list[Form] = []
        self.links: list[str] = []
        self._select: tuple[str, str | None, str | None] | None = None
        self._textarea: list[str] | None = None
        self._by_id: dict[str, Form] = {}
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self._judge(tag, given)
        if tag == "a" and "href" in given:
            self.links.append(given["href"])
        if tag == "form":
            made = Form(given.get("action", ""), given.get("method", "get").lower())
            self.forms.append(made)
            self._by_id[given.get("id", "")] = made
        form = self._by_id.get(given["form"]) if "form" in given else None
        self._note_field(tag, given, form)

    def _judge(self, tag: str, given: dict[str, str]) -> None:
        told = f"<{tag} {given}>"
        if tag == "script" and not given.get("src", "").startswith("/static/"):
            self.acts.append(told)
        if tag in _ACTS or MARK in tag or (tag == "meta" and "http-equiv" in given):
            self.acts.append(told)
        for name, value in given.items():
            address = _as_link(tag, re.sub(r"[\t\r\n]", "", value).strip(_STRIPPED))
            acts = name.startswith("on") or name in ("style", "srcdoc") or MARK in name
            if acts or (name in _ADDRESSES and not _HARMLESS.match(address)):
                self.acts.append(told)

    def _note_field(self, tag: str, given: dict[str, str], form: Form | None) -> None:
        if form is None and not self.forms:
            return
        form = form or self.forms[-1]
        name = given.get("name", "")
        if given.get("aria-invalid") == "true":
            form.wrong.add(name)
        if tag == "input" and name:
            form.fields.append((name, given.get("type", "text"), given.get("value", "")))
        elif tag == "button" and name:
            form.fields.append((name, "submit", given.get("value", "")))
        elif tag == "textarea" and name:
            self._textarea = []
            form.fields.append((name, "textarea", ""))
        elif tag == "select" and name:
            self._select = (name, None, None)
        elif tag == "option" and self._select is not None:
            first = self._select[1] if self._select[1] is not None else given.get("value", "")
            chosen = given.get("value", "") if "selected" in given else self._select[2]
            self._select = (self._select[0], first, chosen)

    def handle_endtag(self, tag: str) -> None:
        if tag == "textarea" and self._textarea is not None:
            name, type, _ = self.forms[-1].fields[-1]
            text = "".join(self._textarea).removeprefix("\n")
            self.forms[-1].fields[-1] = (name, type, text)
            self._textarea = None
        elif tag == "select" and self._select is not None:
            name, first, chosen = self._select
            self.forms[-1].fields.append((name, "select", chosen or first or ""))
            self._select = None

    def handle_data(self, data: str) -> None:
        if self._textarea is not None:
            self._textarea.append(data)


def acting_in(text: str) -> list[str]:
    """Return everything in a page that could act without the page's author having written it."""
    return Page(text).acts


def acting_in_pdf(data: bytes) -> list[str]:
    """Return the actions of a PDF that are more than a link to a page or an address."""
    reader = pypdf.PdfReader(io.BytesIO(data))
    found = [
        name
        for name in ("/JavaScript", "/Launch", "/EmbeddedFile", "/OpenAction", "/AA", "/RichMedia")
        if name in str(reader.trailer["/Root"]) or name.encode() in data
    ]
    return found + [uri for uri in _links_of(reader) if not _HARMLESS.match(uri)]


def _links_of(reader: pypdf.PdfReader) -> Iterator[str]:
    for page in reader.pages:
        for reference in page.get("/Annots") or ():
            action = reference.get_object().get("/A", {})
            if "/URI" in action:
                yield str(action["/URI"])


def text_of_pdf(data: bytes) -> str:
    """Return the words of a PDF, with what it says of itself."""
    reader = pypdf.PdfReader(io.BytesIO(data))
    told = " ".join(str(value) for value in (reader.metadata or {}).values())
    return "\n".join(page.extract_text() for page in reader.pages) + told
