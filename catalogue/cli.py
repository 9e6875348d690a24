"""The commands: make a collection and serve it, infer layouts, read dates, check what is there."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import IO, Any

import click

# Subjects are imported where they are used, so that `catalogue read` need not wait for the web.


@click.group()
@click.version_option(package_name="quilt-catalogue")
def main() -> None:
    """The catalogue of a quilt collection."""


@main.command()
@click.argument("folder", type=click.Path(path_type=Path), default=Path("demo_collection"))
@click.option("--no-serve", is_flag=True, help="Stop before serving.")
@click.option("--port", type=click.IntRange(0, 65535), default=8765, show_default=True)
def demo(folder: Path, no_serve: bool, port: int) -> None:
    """Make the sample collection in FOLDER, say what came of it, and serve it."""
    from catalogue.demonstration import demonstrate

    _or_explain(lambda: demonstrate(folder, click.echo))
    if not no_serve:
        _serve(folder, port=port)


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--name", prompt="Name of the guild or collection", help="Name of the collection.")
@click.option("--place", default="", help="Where it is.")
def begin(folder: Path, name: str, place: str) -> None:
    """Make a new, empty collection in FOLDER."""
    from catalogue.collection import settings
    from catalogue.collection.folder import Collection

    collection = _or_explain(lambda: Collection.create(folder))
    settings.write(collection.database, settings.Settings(name, place))
    click.echo(f"“{name}” is begun. Serve it with: catalogue serve {folder}")


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--port", type=click.IntRange(0, 65535), default=8765, show_default=True)
@click.option("--address", default="127.0.0.1", help="Address to serve at, for other computers.")
@click.option("--behind", default="", metavar="PROXY", help="Address of an HTTPS proxy in front.")
def serve(folder: Path, port: int, address: str, behind: str) -> None:
    """Serve the collection in FOLDER; on this computer alone, with a sign-in link, if not told."""
    _serve(folder, host=address, port=port, proxy=behind)


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.argument("name")
@click.option("--role", help="volunteer, historian or keeper; for a new account.")
def account(folder: Path, name: str, role: str | None) -> None:
    """Make an account for NAME if there is none, and set its password."""
    from catalogue.collection import accounts
    from catalogue.collection.folder import Collection
    from catalogue.collection.passwords import set_password

    collection = _or_explain(lambda: Collection.open(folder))
    found = accounts.by_name(collection.database, name)
    if found is None:
        wanted = role or click.prompt("Role", type=click.Choice(accounts.ROLES))
        found = _or_explain(lambda: accounts.add(collection.database, name, wanted))
    password = click.prompt(
        "Password, 15 characters or more", hide_input=True, confirmation_prompt=True
    )
    _or_explain(lambda: set_password(collection.database, found, password, "the command line"))
    click.echo(f"{found.name}, {found.role}: the password is set.")


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
def reindex(folder: Path) -> None:
    """Make the search index of the collection in FOLDER anew."""
    _reindex(folder)


def _reindex(folder: Path) -> None:
    from catalogue.collection.folder import Collection
    from catalogue.collection.safekeeping.claims import claimed
    from catalogue.collection.search.indexing import SearchIndex

    def rebuild() -> None:
        collection = Collection.open(folder)
        with claimed(folder, "its index is being made anew"):
            index = SearchIndex(collection)
            index.rebuild(_count("quilts indexed"))
            index.close()

    _or_explain(rebuild)


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
def check(folder: Path) -> None:
    """Check the collection in FOLDER without changing it; one JSON object a finding."""
    from dataclasses import asdict

    from catalogue.collection import checking
    from catalogue.collection.database import CollectionError

    try:
        findings = checking.check(folder)
    except CollectionError as error:
        click.echo(str(error), err=True)
        sys.exit(2)
    for finding in findings:
        _print_json(asdict(finding))
    sys.exit(1 if findings else 0)


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--into", type=click.Path(path_type=Path), help="Folder of copies, on another disk.")
def backup(folder: Path, into: Path | None) -> None:
    """Copy the collection in FOLDER while people work, verify the copy, let old ones go."""
    from catalogue.collection.safekeeping.copying import make_copy

    place = into or folder / "backups"
    copy = _or_explain(lambda: make_copy(folder, place, _count("files read")))
    click.echo(f"Verified: {copy.quilts} quilts, {copy.photographs} photographs in {copy.folder}")
    for finding in copy.findings:
        click.echo(finding, err=True)


@main.command()
@click.argument("copy", type=click.Path(path_type=Path))
@click.argument("new_folder", type=click.Path(path_type=Path))
def restore(copy: Path, new_folder: Path) -> None:
    """Make a collection in NEW_FOLDER of a COPY that is whole."""
    from catalogue.collection.safekeeping import restoring

    _or_explain(lambda: restoring.restore(copy, new_folder, _count("files read")))
    _reindex(new_folder)
    click.echo(f"Restored. Serve it with: catalogue serve {new_folder}")


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.argument("bag", type=click.Path(path_type=Path))
def archive(folder: Path, bag: Path) -> None:
    """Pack the collection in FOLDER as a BAG (BagIt, RFC 8493) for keeping elsewhere."""
    from catalogue.collection.safekeeping import archiving

    _or_explain(lambda: archiving.archive(folder, bag, _count("files read")))
    click.echo(f"Packed and verified: {bag}")


@main.command()
@click.argument("file", type=click.File("rb"), default="-")
def infer(file: IO[bytes]) -> None:
    """Infer layouts from tape readings: one quilt as JSON a line in, one answer a line out."""
    from catalogue.measurement.lines import answer_line

    for line in _lines(file):
        _print_json(answer_line(line))


class _Point(click.ParamType[tuple[float, float]]):
    """A place in a picture, as x,y in pixels."""

    name = "x,y"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> tuple[float, float]:
        try:
            x, y = map(float, str(value).split(","))
        except ValueError:
            self.fail(f"{value!r} is not a place in pixels, such as 120,80.", param, ctx)
        return x, y


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--corners",
    nargs=4,
    type=_Point(),
    required=True,
    help="Corners of the quilt in pixels of the upright picture, clockwise from the top left.",
)
@click.option("--width", type=click.FloatRange(0, min_open=True), help="Inches across, by tape.")
@click.option("--length", type=click.FloatRange(0, min_open=True), help="Inches down, by tape.")
def photo(
    file: Path, corners: tuple[tuple[float, float], ...], width: float | None, length: float | None
) -> None:
    """Read the layout and any turned block from a photograph of a whole quilt: one JSON object."""
    from catalogue.photographs.answering import answer_photograph
    from catalogue.photographs.homography import CornersError
    from catalogue.photographs.opening import PhotographError

    try:
        _print_json(answer_photograph(file.read_bytes(), corners, width, length))
    except (CornersError, PhotographError) as error:
        raise click.ClickException(str(error)) from error
    except OSError as error:
        raise click.ClickException(f"{file} cannot be read: {error.strerror}.") from error


@main.group()
def read() -> None:
    """Read what people write: one line in, one JSON object out."""


@read.command()
@click.argument("file", type=click.File("rb"), default="-")
@click.option("--edtf", is_flag=True, help="Read EDTF only, and print it back unchanged.")
def dates(file: IO[bytes], edtf: bool) -> None:
    """Read dates with their doubt."""
    from catalogue.values.dates import answer_date

    for line in _lines(file):
        _print_json(answer_date(line, edtf))


@read.command()
@click.argument("file", type=click.File("rb"), default="-")
def dimensions(file: IO[bytes]) -> None:
    """Read dimension strings."""
    from catalogue.values.dimensions import answer_dimensions

    for line in _lines(file):
        _print_json(answer_dimensions(line))


@read.command()
@click.argument("file", type=click.File("rb"), default="-")
def provenance(file: IO[bytes]) -> None:
    """Read provenance texts."""
    from catalogue.provenance.reading import answer_provenance

    for line in _lines(file):
        _print_json(answer_provenance(line))


def _lines(file: IO[bytes]) -> Iterator[str]:
    """Yield the lines of a file that are not blank, without their ends, whatever their bytes."""
    for raw in file:
        line = raw.decode("utf-8-sig", "replace").rstrip("\r\n")
        if line.strip():
            yield line


def _print_json(answer: dict[str, Any]) -> None:
    sys.stdout.buffer.write(json.dumps(answer, ensure_ascii=False).encode("utf-8", "replace"))
    sys.stdout.buffer.write(b"\n")


def _count(what: str) -> Callable[[int, int], None]:
    """Return what says how far long work has come, every five hundred and at the end."""

    def say(done: int, total: int) -> None:
        if done == total or done % 500 == 0:
            click.echo(f"{done} of {total} {what}", err=True)

    return say


def _serve(folder: Path, **where: Any) -> None:
    from catalogue.collection.folder import Collection
    from catalogue.serving import Where
    from catalogue.serving import serve as serve_collection

    _or_explain(lambda: serve_collection(Collection.open(folder), Where(**where), click.echo))


def _or_explain(action: Callable[[], Any]) -> Any:
    """Return what the action returns; a fault that has a sentence of its own ends the command."""
    from catalogue.collection.accounts import AccountError
    from catalogue.collection.database import CollectionError
    from catalogue.collection.passwords import PasswordError

    try:
        return action()
    except (AccountError, CollectionError, PasswordError) as error:
        raise click.ClickException(str(error)) from error
