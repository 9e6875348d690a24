"""The built wheel is complete: installed in an empty environment, it makes and serves the demo."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import urllib.error
import urllib.request
import venv
from collections.abc import Iterator
from http.cookiejar import CookieJar
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


VISITED = {
    *("/", "/search", "/patterns", "/patterns/N", "/publications", "/publications/N", "/people"),
    *("/people/N", "/quilts/N", "/quilts/N/card", "/quilts/N/card-NxN.pdf"),
    *("/quilts/N/card-NxN.png", "/quilts/N/photographs/N/page.webp", "/static/style/house.css"),
    *("/static/catalogue.js", "/static/block.svg"),
}
OF_MEMBERS = {
    *("/quilts/new", "/quilts/N/measurements", "/quilts/N/photographs", "/changes/quilt/N"),
    *("/quilts/N/edit/identity", "/quilts/N/edit/making", "/people/N/edit", "/patterns/N/edit"),
}


def run(*command: str | Path, **options: object) -> str:
    done = subprocess.run(
        [str(part) for part in command], capture_output=True, text=True, check=False, **options
    )  # type: ignore[call-overload]
    assert done.returncode == 0, done.stdout + done.stderr
    return str(done.stdout)


@pytest.fixture(scope="module")
def catalogue(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The command, installed from a wheel that was built just now."""
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "pip", "wheel", "--no-deps", "-q", "-w", folder, ROOT)
    venv.create(folder / "env", with_pip=True)
    scripts = folder / "env" / ("Scripts" if os.name == "nt" else "bin")
    (wheel,) = folder.glob("*.whl")
    run(scripts / "python", "-m", "pip", "install", "-q", wheel)
    return scripts / "catalogue"


@pytest.fixture(scope="module")
def demo(catalogue: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample collection, made by the installed command away from the source."""
    elsewhere = tmp_path_factory.mktemp("elsewhere")
    said = run(catalogue, "demo", "--no-serve", cwd=elsewhere)
    assert "24 quilts" in said
    assert "% probable" in said
    card = Path(said.split("Catalogue card: ")[1].strip())
    assert card.read_bytes().startswith(b"%PDF")
    assert "it is used as it is" in run(catalogue, "demo", "--no-serve", cwd=elsewhere)
    return elsewhere / "demo_collection"


@pytest.fixture(scope="module")
def link(catalogue: Path, demo: Path) -> Iterator[str]:
    """The sign-in link of the served demo."""
    server = subprocess.Popen(
        [catalogue, "serve", demo, "--port", "0"],
        stdout=subprocess.PIPE,
        text=True,
        env=os.environ | {"PYTHONUNBUFFERED": "1"},
    )
    assert server.stdout is not None
    said = server.stdout.readline() + server.stdout.readline()
    found = re.search(r"http://127\.0\.0\.1:\d+/sign-in/\S+", said)
    assert found, said
    yield found.group()
    server.terminate()
    server.wait()


def fetch(opener: urllib.request.OpenerDirector, address: str) -> tuple[int, str, bytes]:
    try:
        with opener.open(address) as answer:
            return answer.status, answer.headers.get_content_type(), answer.read()
    except urllib.error.HTTPError as error:
        return error.code, "", b""


def test_every_kind_of_page_of_the_installed_catalogue_answers(link: str) -> None:
    """Follows links from the first page on, as a visitor and as a member, one of each shape."""
    base = link.split("/sign-in/")[0]
    for start, expected in ((f"{base}/", VISITED), (link, VISITED | OF_MEMBERS)):
        opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))
        waiting, shapes = [start], set()
        while waiting:
            address = waiting.pop()
            status, kind, body = fetch(opener, address)
            assert status == 200, address
            if kind != "text/html":
                continue
            for path in re.findall(r"(?:href|src)=\"(/[^\"#]*)", body.decode()):
                shape = re.sub(r"\d+", "N", path.split("?")[0])
                if shape not in shapes:
                    shapes.add(shape)
                    waiting.append(base + path.replace("&amp;", "&"))
        assert expected <= shapes
