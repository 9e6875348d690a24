"""An upload whose connection breaks is absent: no photograph on the record, no file on the disk."""

from __future__ import annotations

import http.client
import io
import socket
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import Flask
from PIL import Image
from waitress.server import create_server
from waitress.wasyncore import close_all

from catalogue.collection import accounts
from catalogue.collection.folder import Collection
from catalogue.collection.records import Quilt
from catalogue.collection.store import add, load

BOUNDARY = "stitch"


def body(photographs: int) -> bytes:
    """The form as a browser sends it, with photographs larger than one piece of the network."""
    parts = []
    for number in range(photographs):
        buffer = io.BytesIO()
        Image.effect_noise((400, 300), 90 + number).save(buffer, "PNG")
        head = (
            f'--{BOUNDARY}\r\nContent-Disposition: form-data; name="photographs";'
            f' filename="{number}.png"\r\nContent-Type: image/png\r\n\r\n'
        )
        parts.append(head.encode() + buffer.getvalue() + b"\r\n")
    return b"".join(parts) + f"--{BOUNDARY}--\r\n".encode()


@pytest.fixture
def address(app: Flask) -> Iterator[tuple[str, int]]:
    """Where the application is served, over the network of this computer."""
    server = create_server(app, host="127.0.0.1", port=0, threads=2)
    thread = threading.Thread(target=server.run)
    thread.start()
    yield "127.0.0.1", int(server.effective_port)
    server.trigger.pull_trigger(lambda: close_all(server._map))  # in its own thread, where it waits
    thread.join()


@pytest.fixture
def cookie(address: tuple[str, int], collection: Collection) -> str:
    """The cookie of somebody who has signed in."""
    keeper = accounts.add(collection.database, "Tess", "keeper")
    connection = http.client.HTTPConnection(*address)
    connection.request("GET", f"/sign-in/{accounts.make_link_token(collection.database, keeper)}")
    return (connection.getresponse().headers["Set-Cookie"] or "").partition(";")[0]


def send(address: tuple[str, int], cookie: str, sent: bytes, length: int) -> bytes:
    """Send a form that is said to be so long; where less is sent the connection breaks there."""
    head = (
        "POST /quilts/1/photographs/add HTTP/1.1\r\nHost: localhost\r\n"
        f"Cookie: {cookie}\r\nContent-Type: multipart/form-data; boundary={BOUNDARY}\r\n"
        f"Content-Length: {length}\r\nConnection: close\r\n\r\n"
    )
    with socket.create_connection(address) as connection:
        connection.sendall(head.encode() + sent)
        if len(sent) < length:
            connection.shutdown(socket.SHUT_WR)
        return connection.recv(100)


def files_in(collection: Collection) -> list[Path]:
    return [path for path in collection.photographs.rglob("*") if path.is_file()]


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9, 0.999])
def test_a_broken_upload_leaves_nothing(
    share: float, collection: Collection, address: tuple[str, int], cookie: str
) -> None:
    add(collection.database, Quilt("Stars"), "Tess")
    whole = body(3)
    send(address, cookie, whole[: int(share * len(whole))], len(whole))
    assert load(collection.database, Quilt, 1).photographs == ()
    assert files_in(collection) == []


def test_the_same_upload_sent_whole_is_there(
    collection: Collection, address: tuple[str, int], cookie: str
) -> None:
    add(collection.database, Quilt("Stars"), "Tess")
    whole = body(3)
    assert b" 302 " in send(address, cookie, whole, len(whole))
    assert len(load(collection.database, Quilt, 1).photographs) == 3
    assert files_in(collection)
