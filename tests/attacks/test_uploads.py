"""Files that are not what they say, or far more than they say."""

from __future__ import annotations

import inspect
import io
import re
import struct
import zipfile
import zlib
from collections.abc import Callable

import pytest
from flask import Flask
from flask.testing import FlaskClient
from markup import HOSTILE, MARK
from PIL import Image, PngImagePlugin
from planting import picture
from walking import rules, token_in
from werkzeug.test import TestResponse

from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.store import load
from catalogue.photographs.derivatives import PhotographError, examine
from catalogue.photographs.opening import MOST_PIXELS

Maker = Callable[[str], FlaskClient]
# Every address that takes files, with the record whose photographs they join.
TAKES_FILES = {
    "photographs.upload": "/quilts/1/photographs/add",
    "related.upload": "/related/1/photographs/add",
    "exhibits.add_photographs": "/exhibits/1/condition/1/photographs",
}


def chunk(kind: bytes, data: bytes) -> bytes:
    """Return one chunk of a PNG file (PNG specification, section 5.3)."""
    checked = kind + data
    return struct.pack(">I", len(data)) + checked + struct.pack(">I", zlib.crc32(checked))


def png(width: int, height: int, data: bytes, *more: bytes) -> bytes:
    """Return a grey PNG that says it is so large, whatever it holds."""
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    body = chunk(b"IHDR", head) + b"".join(more) + chunk(b"IDAT", data) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + body


def frames(number: int) -> bytes:
    buffer = io.BytesIO()
    first, *others = [Image.new("L", (40, 40), shade % 256) for shade in range(number)]
    first.save(buffer, "GIF", save_all=True, append_images=others)
    return buffer.getvalue()


def zipped(size: int) -> bytes:
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("a.jpg", b"\0" * size)
    return buffer.getvalue()


# A few kilobytes that would become hundreds of megabytes.
BOMBS = {
    "a PNG that says it has 2,500 million pixels": png(50_000, 50_000, zlib.compress(b"")),
    "a PNG of 150 million pixels": png(15_000, 10_001, zlib.compress(bytes(15_001 * 10_001), 9)),
    "a PNG one pixel high": png(2**31 - 1, 1, zlib.compress(b"")),
    "a PNG with a text of 200 MB": png(
        *(100, 100, zlib.compress(bytes(101 * 100))),
        chunk(b"zTXt", b"Comment\0\0" + zlib.compress(bytes(200 * 2**20), 9)),
    ),
    "a PNG with a profile of 200 MB": png(
        *(100, 100, zlib.compress(bytes(101 * 100))),
        chunk(b"iCCP", b"p\0\0" + zlib.compress(bytes(200 * 2**20), 9)),
    ),
    "a PNG whose pixels go on for 200 MB": png(100, 100, zlib.compress(bytes(200 * 2**20), 9)),
    "a zip of 200 MB of nothing": zipped(200 * 2**20),
    "a GIF of 300 frames": frames(300),
    "a TIFF that says it has a strip of 4 GB": b"II*\0\x08\0\0\0\x04\0"
    + struct.pack("<HHII", 0x100, 4, 1, 60_000)
    + struct.pack("<HHII", 0x101, 4, 1, 60_000)
    + struct.pack("<HHII", 0x111, 4, 1, 0)
    + struct.pack("<HHII", 0x117, 4, 1, 2**32 - 1)
    + bytes(4),
}
HARMLESS_THOUGH_ODD = {
    "a PNG whose pixels go on for 200 MB",  # no more of it is read than the picture needs
}


@pytest.fixture(params=TAKES_FILES.values(), ids=TAKES_FILES)
def upload(request: pytest.FixtureRequest, client_of: Maker) -> Callable[..., TestResponse]:
    """Sends a file to one of the addresses that take files."""
    keeper = client_of("keeper")
    token = token_in(keeper.get("/quilts/new").text)

    def sent(data: bytes, name: str, kind: str = "image/jpeg") -> TestResponse:
        form = {"csrf_token": token, "photographs": (io.BytesIO(data), name, kind)}
        answer = keeper.post(request.param, data=form)
        return keeper.get(answer.headers["Location"]) if answer.status_code == 302 else answer

    return sent


def kept(collection: Collection) -> set[str]:
    """The names of all originals on the disk."""
    return {path.name for path in (collection.photographs / "originals").rglob("*.*")}


def test_every_address_that_takes_files_is_tried(attacked: Flask) -> None:
    for endpoint in {rule.endpoint for rule in rules(attacked, ["POST"])} - TAKES_FILES.keys():
        view = attacked.view_functions[endpoint]
        assert "request.files" not in inspect.getsource(inspect.unwrap(view)), endpoint


@pytest.mark.parametrize("name", BOMBS)
def test_a_bomb_is_refused_before_it_goes_off(name: str) -> None:
    assert len(BOMBS[name]) < 400_000
    if name in HARMLESS_THOUGH_ODD:
        assert examine(BOMBS[name]).pixels_wide * 100 < MOST_PIXELS
    else:
        with pytest.raises(PhotographError):
            examine(BOMBS[name])


@pytest.mark.parametrize(
    ("data", "name", "kind"),
    [
        (f"<svg xmlns='http://www.w3.org/2000/svg'>{HOSTILE}</svg>", "a.svg", "image/svg+xml"),
        (f"<svg xmlns='http://www.w3.org/2000/svg'>{HOSTILE}</svg>", "a.jpg", "image/jpeg"),
        (f"<!doctype html>{HOSTILE}", "a.html", "text/html"),
        (f"<!doctype html>{HOSTILE}", "a.png", "image/png"),
        (f"%PDF-1.7 {HOSTILE}", "a.pdf", "application/pdf"),
        (f"#!/bin/sh\n{HOSTILE}", "a.jpg", "image/jpeg"),
        (f"GIF89a/*{HOSTILE}*/=1;", "a.gif", "image/gif"),
        ("%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 99 99\n(/etc/passwd) run", "a.eps", ""),
        ("", "a.jpg", "image/jpeg"),
    ],
)
def test_what_is_no_photograph_is_not_kept_whatever_it_is_called(
    upload: Callable[..., TestResponse], hostile: Collection, data: str, name: str, kind: str
) -> None:
    before = kept(hostile)
    page = upload(data.encode(), name, kind)
    assert page.status_code == 200
    assert kept(hostile) == before


def test_bombs_are_refused_in_words(
    upload: Callable[..., TestResponse], hostile: Collection
) -> None:
    before = kept(hostile)
    for name in set(BOMBS) - HARMLESS_THOUGH_ODD:
        assert "was not kept" in upload(BOMBS[name], "a.jpg").text, name
    assert kept(hostile) == before


def _with_text() -> bytes:
    info, buffer = PngImagePlugin.PngInfo(), io.BytesIO()
    info.add_text("Comment", HOSTILE)
    Image.new("RGB", (60, 60), (4, 5, 6)).save(buffer, "PNG", pnginfo=info)
    return buffer.getvalue()


POLYGLOTS = {
    "a JPEG with a page behind it": picture((1, 2, 3)) + HOSTILE.encode(),
    "a JPEG with a zip behind it": picture((2, 2, 3)) + zipped(100),
    "a JPEG with a PDF behind it": picture((3, 2, 3)) + b"%PDF-1.7" + HOSTILE.encode(),
    "a JPEG with a page in its comment": picture((4, 2, 3), comment=HOSTILE.encode()),
    "a PNG with a page in its text": _with_text(),
}


@pytest.mark.parametrize("name", POLYGLOTS)
def test_a_photograph_that_is_something_else_too_is_only_ever_a_photograph(
    client_of: Maker, hostile: Collection, name: str
) -> None:
    keeper, data = client_of("keeper"), POLYGLOTS[name]
    token = token_in(keeper.get("/quilts/new").text)
    form = {"csrf_token": token, "photographs": (io.BytesIO(data), "a.html", "text/html")}
    assert keeper.post("/quilts/1/photographs/add", data=form).status_code == 302
    photograph = load(hostile.database, Quilt, 1).photographs[-1]
    assert photograph.format in ("jpg", "png")
    page = keeper.get("/quilts/1/photographs").text
    smaller = set(re.findall(rf"/quilts/1/photographs/{photograph.id}/\w+\.\w+", page))
    assert smaller
    for address in smaller:
        answer = keeper.get(address)
        assert answer.mimetype in ("image/jpeg", "image/webp")
        assert MARK.encode() not in answer.get_data()
    original = keeper.get(f"/quilts/1/photographs/{photograph.id}/original")
    assert original.get_data() == data, "the original stays as it was taken"
    assert original.mimetype in ("image/jpeg", "image/png")
    assert original.headers["Content-Disposition"].startswith("attachment")
    assert original.headers["X-Content-Type-Options"] == "nosniff"


# --- bodies ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("data", "kind"),
    [
        (b"title=" + b"a" * (5 * 2**20), "application/x-www-form-urlencoded"),
        (
            b'--x\r\nContent-Disposition: form-data; name="title"\r\n\r\n'
            + b"a" * (5 * 2**20)
            + b"\r\n--x--\r\n",
            "multipart/form-data; boundary=x",
        ),
        (
            b'--x\r\nContent-Disposition: form-data; name="a"\r\n\r\nb\r\n' * 9000 + b"--x--\r\n",
            "multipart/form-data; boundary=x",
        ),
    ],
    ids=["a long field", "a long part", "many parts"],
)
def test_a_body_that_is_too_large_is_refused_in_words(
    client_of: Maker, data: bytes, kind: str
) -> None:
    answer = client_of("keeper").post("/quilts/new", data=data, content_type=kind)
    assert answer.status_code == 413
    assert "Too large" in answer.text


def test_only_members_send_large_bodies(attacked: Flask, client_of: Maker) -> None:
    boundary = b'--x\r\nContent-Disposition: form-data; name="photographs"; filename="a"\r\n\r\n'
    data = boundary + bytes(6 * 2**20) + b"\r\n--x--\r\n"
    sent = {"data": data, "content_type": "multipart/form-data; boundary=x"}
    assert attacked.test_client().post("/quilts/1/photographs/add", **sent).status_code == 413
    answer = client_of("volunteer").post("/quilts/1/photographs/add", **sent)
    assert answer.status_code == 400, "the token is missing, the body is read"


@pytest.mark.parametrize("length", ["300000000", "99999999999999", "-1", "1e9", "x"])
def test_a_length_that_is_too_large_or_none_is_refused_before_it_is_read(
    attacked: Flask, length: str
) -> None:
    answer = attacked.test_client().post(
        "/sign-in",
        input_stream=io.BytesIO(b"name=a"),
        content_type="application/x-www-form-urlencoded",
        environ_overrides={"CONTENT_LENGTH": length},
    )
    assert answer.status_code in (400, 413)


@pytest.mark.parametrize(
    "kind",
    [
        *("application/json", "text/xml", "multipart/form-data", "", "x" * 5000, "a/b; boundary="),
        *(
            "multipart/form-data; boundary=" + "x" * 500,
            "application/x-www-form-urlencoded; q=\xff",
        ),
    ],
    ids=lambda kind: kind[:40],
)
def test_a_body_of_another_kind_is_refused(client_of: Maker, kind: str) -> None:
    answer = client_of("keeper").post("/quilts/new", data=b"\xff\x00<a/>", content_type=kind)
    assert answer.status_code == 400
