"""Scripts that somebody types, uploads or links to stay words, on every page and on paper."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Callable
from urllib.parse import quote

import pytest
from flask import Flask
from flask.testing import FlaskClient
from markup import HOSTILE, MARK, WORKED_OUT, Form, Page, acting_in, acting_in_pdf, text_of_pdf
from PIL import Image
from planting import picture
from walking import FIRST, is_paper, readable, token_in
from werkzeug.test import TestResponse

from catalogue.web.presentation import from_markdown

# What the attacker's own session would not outlive.
_ENDS_THE_SESSION = re.compile(r"/sign-out|/my-account|/accounts/\d+$")


def faults_of(address: str, answer: TestResponse) -> list[str]:
    """What in an answer could act."""
    kind, data = answer.mimetype, answer.get_data()
    if kind == "text/html":
        text = data.decode()
        found = acting_in(text) + [WORKED_OUT] * (WORKED_OUT in text)
    elif kind == "application/pdf":
        found = acting_in_pdf(data)
    elif kind == "image/svg+xml":
        found = acting_in(data.decode())
    else:
        found = []
    return [f"{address}: {each}" for each in found]


@pytest.mark.parametrize("role", ["visitor", "keeper"])
def test_no_page_and_no_paper_acts_on_what_stands_in_the_record(
    attacked: Flask, client_of: Callable[[str], FlaskClient], role: str
) -> None:
    client, faults, shown = client_of(role), [], 0
    for address in readable(attacked, FIRST):
        if role == "visitor" and is_paper(address):
            continue  # the keeper's says more, and is looked at
        answer = client.get(address)
        assert answer.status_code < 500, address
        shown += MARK in answer.text if answer.mimetype == "text/html" else 0
        faults += faults_of(address, answer)
    assert not faults, "\n".join(faults[:20])
    assert shown >= (8 if role == "visitor" else 20), "the attack did not reach the pages"


def test_what_is_planted_is_on_paper_as_words(client_of: Callable[[str], FlaskClient]) -> None:
    made = client_of("keeper").get("/quilts/1/card-6x4.pdf").get_data()
    assert "<script>" in text_of_pdf(made)


def test_every_form_shows_and_keeps_what_is_typed_as_words(
    attacked: Flask, client_of: Callable[[str], FlaskClient]
) -> None:
    """Every text field of every form takes the attack: sent back as typed, or saved and shown."""
    keeper = client_of("keeper")
    faults: list[str] = []
    sent, saved, fields = 0, 0, 0
    pages = [address for address in readable(attacked, FIRST) if not is_paper(address)]
    for address in pages:
        for form in _forms(keeper, address):
            if form.method != "post" or _ENDS_THE_SESSION.match(form.action):
                continue
            data = [(n, HOSTILE if _typed(n, t) else v) for n, t, v in _sendable(form)]
            answer = _send(keeper, form, address, data)
            faults += faults_of(f"a form of {address}", answer)
            if answer.status_code == 422:  # what refuses the attack keeps what stood in it
                wrong = set().union(*(each.wrong for each in Page(answer.text).forms))
                data = [(n, _kept(form, n) if n in wrong else v) for n, v in data]
                answer = _send(keeper, form, address, data)
                faults += faults_of(f"a form of {address}, again", answer)
            assert answer.status_code < 500, address
            sent, saved = sent + 1, saved + (answer.status_code == 302)
            fields += sum(value == HOSTILE for _, value in data)
    faults += [fault for at in pages for fault in faults_of(at, keeper.get(at))]
    print(f"{sent} forms sent, {fields} fields filled with the attack, {saved} saved")
    assert not faults, "\n".join(faults[:20])
    assert saved >= 40


def _forms(client: FlaskClient, address: str) -> list[Form]:
    answer = client.get(address)
    return Page(answer.text).forms if answer.mimetype == "text/html" else []


def _sendable(form: Form) -> list[tuple[str, str, str]]:
    keep = {name for name, _ in form.values()}
    return [each for each in form.fields if each[0] in keep and each[1] != "file"]


def _typed(name: str, type: str) -> bool:
    return type in ("text", "textarea", "search", "email", "password") and not name.endswith(
        "order"
    )


def _kept(form: Form, name: str) -> str:
    return next(value for n, _, value in form.fields if n == name)


def _send(client: FlaskClient, form: Form, page: str, data: list[tuple[str, str]]) -> TestResponse:
    body: dict[str, list[str]] = {}
    for name, value in data:
        body.setdefault(name, []).append(value)
    return client.post(form.action or page, data=body)


@pytest.mark.parametrize(
    "text",
    [
        HOSTILE,
        "[x](javascript:xplanted())",
        "[x](JaVaScRiPt:xplanted())",
        "[x](java\tscript:xplanted())",
        "[x](&#106;avascript:xplanted())",
        "[x]( javascript:xplanted())",
        "[x](vbscript:xplanted())",
        "[x](data:text/html;base64,PHNjcmlwdD4=)",
        "[x][y]\n\n[y]: javascript:xplanted()",
        "<javascript:xplanted()>",
        '![x](x"onerror=xplanted())',
        "<a href='jav&#x09;ascript:xplanted()'>x</a>",
        "<svg><script>xplanted()</script></svg>",
        "<math><mtext><table><mglyph><style><img src=x onerror=xplanted()></style>",
        "<details open ontoggle=xplanted()>",
        "<p style='background:url(javascript:xplanted())'>x</p>",
        "<form action=/sign-out method=post><button>x</button></form>",
        "# <script>xplanted()</script>",
        "| <script>xplanted()</script> |\n|---|\n| <img src=x onerror=xplanted()> |",
        "`</code><script>xplanted()</script>`",
        "    </pre><script>xplanted()</script>",
        "<noscript><p title='</noscript><img src=x onerror=xplanted()>'>",
        '<a href="//example.org" target=_blank onclick=xplanted()>x</a>',
        "<meta http-equiv=refresh content='0;url=javascript:xplanted()'>",
        "<base href=//example.org>",
    ],
)
def test_nothing_acts_in_markdown(text: str) -> None:
    made = Page(str(from_markdown(text)))
    assert not made.acts
    assert not made.forms


@pytest.mark.parametrize(
    "address",
    [
        *("/search?q=", "/search?maker=", "/search?pattern=", "/search?sort=", "/search?from="),
        *("/?as=", "/?q=", "/?page=", "/sign-in?next=", "/print?kind=card&quilts=1&size="),
        *("/print?quilts=1&paper=", "/print?find=&q=", "/quilts/1/working-out?block="),
        *("/read-date?text=", "/", "/eras/", "/sign-in/", "/static/", "/changes/"),
    ],
)
def test_nothing_acts_that_stands_in_an_address(
    attacked: Flask, client_of: Callable[[str], FlaskClient], address: str
) -> None:
    for role in ("visitor", "keeper"):
        answer = client_of(role).get(address + quote(HOSTILE))
        assert answer.status_code < 500
        if answer.mimetype == "application/json":
            json.loads(answer.text)
            assert answer.headers["X-Content-Type-Options"] == "nosniff"
        else:
            assert answer.mimetype == "text/html"
            assert not acting_in(answer.text)


@pytest.mark.parametrize(
    "name",
    [
        f"<script>{MARK}()</script>.jpg",
        f'"><img src=x onerror={MARK}()>.jpg',
        f"../../../../{MARK}.jpg",
        f"{MARK}\r\nSet-Cookie: a=b.jpg",
        "con.jpg",
        f"{MARK}.jpg\x00.html",
    ],
)
@pytest.mark.parametrize("good", [True, False])
def test_a_file_name_is_words_at_most(
    client_of: Callable[[str], FlaskClient], name: str, good: bool
) -> None:
    keeper = client_of("keeper")
    data = picture((1, 2, 3)) if good else b"no picture"
    answer = _upload(keeper, data, name)
    assert answer.status_code == 302
    assert "a=b" not in str(answer.headers)
    page = keeper.get("/quilts/1/photographs")
    assert not acting_in(page.text)
    assert ("was not kept" in page.text) is not good


def test_what_a_camera_wrote_into_a_photograph_reaches_no_page_and_no_smaller_picture(
    client_of: Callable[[str], FlaskClient],
) -> None:
    exif = Image.Exif()
    for tag in (0x010E, 0x010F, 0x0110, 0x013B, 0x8298, 0x9286):  # description to comment
        exif[tag] = HOSTILE
    keeper = client_of("keeper")
    _upload(keeper, picture((9, 9, 9), exif=exif.tobytes(), comment=HOSTILE.encode()), "a.jpg")
    page = keeper.get("/quilts/1/photographs").text
    assert not acting_in(page)
    pictures = set(re.findall(r"/quilts/1/photographs/\d+/\w+\.(?:jpg|webp)", page))
    assert len({each.split("/")[4] for each in pictures}) == 2
    for address in pictures:
        small = keeper.get(address).get_data()
        assert MARK.encode() not in small
        assert not Image.open(io.BytesIO(small)).getexif()


def _upload(client: FlaskClient, data: bytes, name: str) -> TestResponse:
    """Send a file with its name as browsers write it (html.spec.whatwg.org, form submission)."""
    for letter in '"\r\n':
        name = name.replace(letter, f"%{ord(letter):02X}")
    sent = {
        "csrf_token": token_in(client.get("/quilts/1/photographs").text),
        "photographs": (io.BytesIO(data), name),
    }
    return client.post("/quilts/1/photographs/add", data=sent)
