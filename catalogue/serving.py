"""Serving one collection on this machine: four threads, a database connection each."""

from __future__ import annotations

import logging
import os
import socket
from collections.abc import Callable

import waitress

from catalogue.collection import accounts
from catalogue.collection.database import CollectionError, damage
from catalogue.collection.folder import Collection
from catalogue.collection.safekeeping.claims import claimed
from catalogue.web import create_app

HOST = "127.0.0.1"
# A browser holds several open; at waitress's own limit of 100 the hundred and first person waits
# until another leaves.
_CONNECTIONS = 2000
THREADS = 4  # the interpreter is the limit: more threads were measured to be slower


def serve(collection: Collection, port: int, say: Callable[[str], None]) -> None:
    """Serve until interrupted; `say` gets the address and a sign-in link that works once.

    Where the port is taken, a free one is used. Raises CollectionError where the folder is served
    already or its database is damaged.
    """
    listening = _listen(port)
    address = f"http://{HOST}:{listening.getsockname()[1]}"
    with claimed(collection.folder, f"it is served at {address}/"):
        _refuse_damage(collection)
        _serve(collection, listening, address, say)


def _serve(
    collection: Collection, listening: socket.socket, address: str, say: Callable[[str], None]
) -> None:
    app = create_app(collection)
    app.extensions["search_index"].catch_up()
    keeper = accounts.add(collection.database, "Keeper", "keeper")
    token = accounts.make_link_token(collection.database, keeper)
    say(f"Serving at {address}/ (stop with Ctrl-C).")
    say(f"Sign in, once: {address}/sign-in/{token}")
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)  # it tells of every short wait
    waitress.serve(
        app,
        sockets=[listening],
        threads=THREADS,
        connection_limit=_CONNECTIONS,
        asyncore_use_poll=True,  # `select` knows no more than 1,024 of them
        ident=None,
    )


def _refuse_damage(collection: Collection) -> None:
    """Raise CollectionError where the database is damaged: what it would show may be wrong."""
    found = damage(collection.database)
    if found:
        raise CollectionError(
            f"The database of “{collection.folder}” is damaged. {found[0]} Nothing was changed:"
            " restore the newest copy into a new folder with `catalogue restore`."
        )


def _listen(port: int) -> socket.socket:
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if os.name != "nt":  # on Windows it would let two servers share the port
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((HOST, port))
    except OSError:
        listening.bind((HOST, 0))
    listening.listen(128)  # whoever follows the link at once is heard
    return listening
