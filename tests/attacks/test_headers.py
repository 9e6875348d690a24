"""The headers of every answer, and what somebody might write into them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from walking import FIRST, is_paper, readable, token_in, writable
from werkzeug.test import TestResponse

from catalogue.collection import accounts, settings
from catalogue.collection.folder import Collection
from catalogue.collection.passwords import set_password
from catalogue.collection.records import Quilt
from catalogue.collection.store import add

Maker = Callable[[str], FlaskClient]
ELSEWHERE = "attacker.example"


def faults_of(answer: TestResponse) -> list[str]:
    """What the headers of an answer leave open."""
    policy = dict(
        each.strip().split(" ", 1)
        for each in answer.headers.get("Content-Security-Policy", "").split(";")
        if each.strip()
    )
    wanted = {
        "default-src": "'none'",
        "script-src": "'self'",
        "style-src": "'self'",
        "frame-ancestors": "'none'",
        "base-uri": "'none'",
        "form-action": "'self'",
    }
    found = [name for name, value in wanted.items() if policy.get(name) != value]
    found += ["unsafe"] * ("unsafe" in str(policy))
    found += ["sniffing"] * (answer.headers.get("X-Content-Type-Options") != "nosniff")
    found += ["referrer"] * (answer.headers.get("Referrer-Policy") != "same-origin")
    found += ["opener"] * (answer.headers.get("Cross-Origin-Opener-Policy") != "same-origin")
    found += ["server"] * ("Server" in answer.headers and "Werkzeug" in answer.headers["Server"])
    return found


@pytest.mark.parametrize("role", ["visitor", "keeper"])
def test_every_answer_is_guarded(attacked: Flask, client_of: Maker, role: str) -> None:
    client, seen = client_of(role), set()
    for address in readable(attacked, FIRST):
        if is_paper(address):
            continue  # their bytes take a second each; one of them is looked at below
        for method in ("GET", "OPTIONS"):
            answer = client.open(address, method=method)
            assert not faults_of(answer), f"{method} {address}"
            seen.add(answer.status_code)
    for method, address in writable(attacked, FIRST):
        answer = client.open(address, method=method)
        assert not faults_of(answer), f"{method} {address}"
        seen.add(answer.status_code)
    assert seen >= {200, 400, 404}


@pytest.mark.parametrize(
    ("address", "code"),
    [
        *(("/static/style/house.css", 200), ("/static/none.css", 404), ("/static/", 404)),
        *(("/quilts/1/card-6x4.pdf", 200), ("/quilts/1/card-6x4.png", 200), ("/nothing", 404)),
        *(("/quilts//1", 308), ("/sign-out", 405), ("/static/block.svg", 200)),
    ],
)
def test_files_and_faults_are_guarded_too(client_of: Maker, address: str, code: int) -> None:
    answer = client_of("visitor").get(address)
    assert answer.status_code == code
    assert not faults_of(answer)


def test_a_fault_of_ours_is_guarded_and_tells_nothing_of_the_program(
    attacked: Flask, hostile: Collection, client_of: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    key = hostile.secret()

    def fails() -> str:
        raise RuntimeError(f"the key is {key!r} in {hostile.folder}")

    monkeypatch.setitem(attacked.view_functions, "eras.era_list", fails)
    answer = client_of("keeper").get("/eras")
    assert answer.status_code == 500
    assert not faults_of(answer)
    for told in ("RuntimeError", "Traceback", "the key is", str(hostile.folder), ".py"):
        assert told not in answer.text


def test_no_cache_between_keeps_what_a_member_saw(attacked: Flask, client_of: Maker) -> None:
    client = client_of("keeper")
    for address in readable(attacked, FIRST):
        if address.startswith("/static") or is_paper(address):
            continue
        control = client.get(address).headers.get("Cache-Control", "")
        assert "private" in control or "no-store" in control, address
        assert "public" not in control, address


def test_signing_out_asks_the_browser_to_forget_the_pages(client_of: Maker) -> None:
    client = client_of("keeper")
    token = token_in(client.get("/quilts/new").text)
    answer = client.post("/sign-out", data={"csrf_token": token})
    assert answer.headers["Clear-Site-Data"] == '"cache"'


# --- ways to another house ---------------------------------------------------------------------

WAYS_AWAY = (
    *(f"https://{ELSEWHERE}/", f"//{ELSEWHERE}", f"/\\{ELSEWHERE}", f"\\\\{ELSEWHERE}"),
    *(f"/\t/{ELSEWHERE}", f"\t//{ELSEWHERE}", f"/\n/{ELSEWHERE}", f"https:{ELSEWHERE}"),
    *(f"///{ELSEWHERE}", f"/%09/{ELSEWHERE}", f" //{ELSEWHERE}", f"http:\\\\{ELSEWHERE}"),
    *(f"/\r\nLocation: https://{ELSEWHERE}", f"/.//{ELSEWHERE}", f"/@{ELSEWHERE}"),
    *("javascript:xplanted()", "data:text/html,xplanted", f"/\x00/{ELSEWHERE}"),
    *(f"//{ELSEWHERE}%2f..", f"/\N{FULLWIDTH SOLIDUS}{ELSEWHERE}", f"//[{ELSEWHERE}", "//["),
)


def leads_away(location: str) -> bool:
    """Say whether a browser would leave this house for an address (url.spec.whatwg.org)."""
    read = "".join(c for c in location if c not in "\t\r\n").strip("".join(map(chr, range(33))))
    read = read.replace("\\", "/")
    return not (read.startswith("/") and not read.startswith("//"))


@pytest.mark.parametrize("way", WAYS_AWAY)
def test_signing_in_leads_nowhere_else(unchanged: Flask, way: str) -> None:
    database = unchanged.extensions["collection"].database
    words = "seven geese over a barn"
    account = accounts.by_name(database, "Ruth")
    if account is None:
        account = accounts.add(database, "Ruth", "volunteer")
        set_password(database, account, words, "Tess")
    client = unchanged.test_client()
    token = token_in(client.get("/sign-in", query_string={"next": way}).text)
    sent = {"csrf_token": token, "name": "Ruth", "password": words, "next": way}
    answer = client.post("/sign-in", data=sent)
    assert answer.status_code == 302
    assert not leads_away(answer.headers["Location"])
    assert "\n" not in answer.headers["Location"]


@pytest.mark.parametrize("way", WAYS_AWAY)
def test_adding_to_a_talk_leads_nowhere_else(client_of: Maker, way: str) -> None:
    client = client_of("volunteer")
    token = token_in(client.get("/quilts/new").text)
    sent = {"csrf_token": token, "what": "quilt", "chosen": "1", "talk": "new", "back": way}
    for data in (sent, sent | {"chosen": ""}):
        answer = client.post("/talks/add", data=data)
        assert answer.status_code == 302
        assert not leads_away(answer.headers["Location"])


def as_host(client: FlaskClient, method: str, address: str, **sent: Any) -> TestResponse:
    """Ask as a proxy or a wrong name server would have it: another host, the same session."""
    cookie = client.get_cookie("session")
    assert cookie is not None
    headers = {"Host": ELSEWHERE, "X-Forwarded-Host": ELSEWHERE, "Forwarded": f"host={ELSEWHERE}"}
    bare = client.application.test_client(use_cookies=False)
    headers |= {"Cookie": f"session={cookie.value}"}
    return bare.open(address, method=method, headers=headers, **sent)


def test_no_page_repeats_the_host_that_somebody_wrote(attacked: Flask, client_of: Maker) -> None:
    """Such a page, kept by a cache between, would lead those who come after to the other house."""
    keeper, signed_in = client_of("keeper"), 0
    for address in readable(attacked, FIRST):
        if is_paper(address):
            continue
        answer = as_host(keeper, "GET", address)
        assert ELSEWHERE.encode() not in answer.get_data(), address
        assert ELSEWHERE not in str(answer.headers), address
        signed_in += b">The keeper</a>, keeper" in answer.get_data()
    assert signed_in > 40


def test_an_invitation_leads_to_the_address_of_the_house_where_that_is_known(
    hostile: Collection, client_of: Maker
) -> None:
    house = settings.Settings("House", base_address="https://house.example/quilts/")
    settings.write(hostile.database, house)
    keeper = client_of("keeper")
    token = token_in(keeper.get("/accounts").text)
    sent = {"csrf_token": token, "name": "Joan", "role": "volunteer"}
    page = as_host(keeper, "POST", "/accounts", data=sent).text
    assert "https://house.example/quilts/sign-in/" in page
    assert ELSEWHERE not in page


@pytest.mark.parametrize(
    "number", ["1987\r\nSet-Cookie: a=b", 'x"; filename="evil.exe', "日本.1", "é"]
)
def test_a_number_writes_no_header(hostile: Collection, client_of: Maker, number: str) -> None:
    """Numbers of other houses may come in by import, whatever is written in them."""
    quilt = add(hostile.database, Quilt("Bars", accession=number, published=True), "Tess")
    answer = client_of("visitor").get(f"/quilts/{quilt.id}/card-6x4.png")
    assert answer.status_code == 200
    name = answer.headers["Content-Disposition"]
    assert "Set-Cookie" not in answer.headers
    assert name.isascii()
    assert name.count('"') == 2
    assert "evil.exe" not in name
