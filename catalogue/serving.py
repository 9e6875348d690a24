"""Serving one collection, on this machine or to a network: four threads, a connection each."""

from __future__ import annotations

import ipaddress
import logging
import os
import socket
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import waitress

from catalogue.collection import accounts
from catalogue.collection.damage import damage
from catalogue.collection.database import CollectionError
from catalogue.collection.folder import Collection
from catalogue.collection.safekeeping.claims import claimed
from catalogue.collection.trouble import REMEDY
from catalogue.patterns.thesaurus import designs
from catalogue.web import create_app
from catalogue.web.application import LARGEST_UPLOAD

HOST = "127.0.0.1"
# A browser holds several open; at waitress's own limit of 100 the hundred and first person waits
# until another leaves.
_CONNECTIONS = 2000
THREADS = 4  # the interpreter is the limit: more threads were measured to be slower


@dataclass(frozen=True)
class Where:
    """Where to serve: `proxy` is the address of the HTTPS proxy in front, if there is one."""

    host: str = HOST
    port: int = 8765
    proxy: str = ""

    @property
    def is_here_alone(self) -> bool:
        """True where only this computer can reach the pages."""
        return not self.proxy and ipaddress.ip_address(self.host).is_loopback


def serve(collection: Collection, where: Where, say: Callable[[str], None]) -> None:
    """Serve until interrupted; `say` gets the address and a sign-in link that works once.

    On this computer a free port is used where the one asked for is taken. Raises CollectionError
    where the folder is served already, its database is damaged, the port is taken, or others could
    reach the pages and no keeper has a password.
    """
    where = replace(where, host=_address_of(where.host))
    if not where.is_here_alone:
        _refuse_without_keeper(collection)
    listening = _listen(where)
    host = f"[{where.host}]" if ":" in where.host else where.host
    address = f"http://{host}:{listening.getsockname()[1]}"
    with claimed(collection.folder, f"it is served at {address}/"):
        _refuse_damage(collection)
        _serve(collection, listening, address, where, say)


def _serve(
    collection: Collection,
    listening: socket.socket,
    address: str,
    where: Where,
    say: Callable[[str], None],
) -> None:
    app = create_app(collection)
    app.config["SESSION_COOKIE_SECURE"] = bool(where.proxy)
    app.extensions["search_index"].catch_up()
    designs()  # read now, or else whoever saves first waits for it
    say(f"Serving at {address}/ (stop with Ctrl-C).")
    if where.is_here_alone:
        token = accounts.make_link_token(collection.database, _some_keeper(collection))
        say(f"Sign in, once: {address}/sign-in/{token}")
    elif not where.proxy:
        say(
            "Everybody on this network can read what is sent, passwords too: for more than a"
            " trusted room put a proxy with HTTPS in front and say so with --behind."
        )
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)  # it tells of every short wait
    waitress.serve(
        app,
        sockets=[listening],
        threads=THREADS,
        connection_limit=_CONNECTIONS,
        asyncore_use_poll=True,  # `select` knows no more than 1,024 of them
        ident=None,
        max_request_body_size=LARGEST_UPLOAD,
        **_trusting(where),
    )


def _address_of(host: str) -> str:
    """Return the address of this computer that a name means. Raises CollectionError."""
    try:
        return str(socket.getaddrinfo(host, None, type=socket.SOCK_STREAM)[0][4][0])
    except OSError as error:
        raise CollectionError(f"“{host}” is no address of this computer.") from error


def _some_keeper(collection: Collection) -> accounts.Account:
    """Return an account of a keeper who can sign in, made where there is none."""
    for account in accounts.everybody(collection.database):
        if account.role == "keeper" and not account.closed:
            return account
    names = ("Keeper", *(f"Keeper {number}" for number in range(2, 1000)))
    free = next(name for name in names if accounts.by_name(collection.database, name) is None)
    return accounts.add(collection.database, free, "keeper")


def _trusting(where: Where) -> dict[str, Any]:
    """Return how far headers of a proxy are believed: its own alone, and no others."""
    if not where.proxy:
        return {}
    return {
        "trusted_proxy": where.proxy,
        "trusted_proxy_count": 1,
        "trusted_proxy_headers": {"x-forwarded-for", "x-forwarded-proto", "x-forwarded-host"},
        "clear_untrusted_proxy_headers": True,
    }


def _refuse_without_keeper(collection: Collection) -> None:
    """Raise CollectionError where nobody could sign in as keeper from another computer."""
    known = accounts.everybody(collection.database)
    if not any(a.role == "keeper" and a.has_password and not a.closed for a in known):
        raise CollectionError(
            "No keeper has a password yet, so this collection is not shown to other computers."
            f" Set one first: catalogue account {collection.folder} YOUR_NAME --role keeper"
        )


def _refuse_damage(collection: Collection) -> None:
    """Raise CollectionError where the database is damaged: what it would show may be wrong."""
    found = damage(collection.database)
    if found:
        raise CollectionError(
            f"The database of “{collection.folder}” is damaged. {found[0]}{REMEDY}"
        )


def _listen(where: Where) -> socket.socket:
    family = socket.AF_INET6 if ":" in where.host else socket.AF_INET
    listening = socket.socket(family, socket.SOCK_STREAM)
    if os.name != "nt":  # on Windows it would let two servers share the port
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((where.host, where.port))
    except OSError as error:
        if not where.is_here_alone:
            listening.close()
            raise CollectionError(
                f"“{where.host}”, port {where.port}, cannot be used: {error.strerror}."
            ) from error
        listening.bind((where.host, 0))
    listening.listen(128)  # whoever follows the link at once is heard
    return listening
