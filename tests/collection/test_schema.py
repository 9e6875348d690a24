"""The tables are those of the records, and migrations run once, in order, whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlite_utils import Database

from catalogue.collection import database as opening
from catalogue.collection.database import CollectionError, connect, migrate
from catalogue.collection.folder import Collection
from catalogue.collection.tables import TABLE_OF, children_of, fields_of


@pytest.mark.parametrize("record", TABLE_OF, ids=lambda record: record.__name__)
def test_every_field_of_a_record_has_its_columns(collection: Collection, record: type) -> None:
    columns = {column.name for column in collection.database[TABLE_OF[record]].columns}
    expected = {name for field in fields_of(record) for name in field.columns}
    managing = {"position", "accession_key"} | {TABLE_OF[parent] for parent in TABLE_OF}
    assert expected <= columns
    assert columns - expected <= managing


def test_every_child_record_has_a_table() -> None:
    assert {child.rows for record in TABLE_OF for child in children_of(record)} <= TABLE_OF.keys()


def test_opening_again_changes_nothing(collection: Collection) -> None:
    before = collection.database.schema
    Collection.open(collection.folder).close()
    assert collection.database.schema == before


def test_a_migration_that_fails_leaves_the_schema_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    steps = tmp_path / "schema"
    steps.mkdir()
    (steps / "0001_good.sql").write_text("CREATE TABLE good (id INTEGER);\n")
    (steps / "0002_bad.sql").write_text("CREATE TABLE half (id INTEGER);\nCREATE TABEL oops;\n")
    monkeypatch.setattr(opening, "_SCHEMA", steps)
    database = connect(tmp_path / "catalogue.db")
    with pytest.raises(Exception, match="syntax error"):
        migrate(database)
    assert "good" in database.table_names()
    assert "half" not in database.table_names()
    (steps / "0002_bad.sql").write_text("CREATE TABLE half (id INTEGER);\n")
    migrate(database)
    assert "half" in database.table_names()


def test_a_collection_of_a_newer_version_is_not_touched(collection: Collection) -> None:
    collection.database["_sqlite_migrations"].insert(
        {"migration_set": "catalogue", "name": "9999_later", "applied_at": "2099"}
    )
    with pytest.raises(CollectionError, match="newer version"):
        Collection.open(collection.folder)


def test_a_folder_without_a_database_is_no_collection(tmp_path: Path) -> None:
    with pytest.raises(CollectionError, match="is not a collection"):
        Collection.open(tmp_path)


def test_a_collection_is_not_made_over_another(collection: Collection) -> None:
    with pytest.raises(CollectionError, match="already holds a collection"):
        Collection.create(collection.folder)


def test_each_thread_has_a_connection_of_its_own(collection: Collection) -> None:
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(1) as pool:
        other: Database = pool.submit(lambda: collection.database).result()
    assert other is not collection.database
