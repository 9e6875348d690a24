"""The same result page over SQLite's FTS5, with facets counted in SQL, to compare with.

FTS5 is given its best: one column of text, one narrow table for each facet, keyed by quilt.
"""

from __future__ import annotations

import json
import sqlite3
from pathlib import Path

_PAIRS = {
    "pattern": "SELECT quilt, pattern FROM block_kind",
    "family": "SELECT quilt, family FROM block_kind JOIN pattern ON pattern.id = pattern",
    "setting": "SELECT id, setting_seen FROM quilt",
    "technique": "SELECT quilt, name FROM technique",
    "maker": "SELECT quilt, party FROM phase JOIN phase_maker ON phase = phase.id",
    "place": "SELECT quilt, place FROM phase",
    "condition": "SELECT quilt, grade FROM condition_report",
    "publication": """
        SELECT quilt, publication FROM block_kind JOIN printing ON printing.id = printing""",
    "status": "SELECT id, status FROM quilt",
    "decade": """
        WITH RECURSIVE lasting (quilt, decade, last) AS (
          SELECT quilt, substr(date_earliest, 1, 3) * 10, substr(date_latest, 1, 4) + 0 FROM phase
          UNION ALL SELECT quilt, decade + 10, last FROM lasting WHERE decade + 10 <= last)
        SELECT quilt, decade FROM lasting""",
    "display": "SELECT id, 'no' FROM quilt",
    "colour": "SELECT quilt, trim(value) FROM material, json_each('[\"' ||"
    " replace(colours, ', ', '\",\"') || '\"]')",
}

_BETWEEN = " fieldends "  # so that no phrase goes from one field into the next
_FEW = 20_000


class Fts5:
    """Texts and facets of a collection in a file of their own."""

    def __init__(self, collection: Path, file: Path) -> None:
        self._connection = sqlite3.connect(file, isolation_level=None)
        self._connection.execute("ATTACH ? AS source", [str(collection)])

    def fill(self) -> None:
        """Take over the texts that the catalogue's own index holds, and the facets."""
        run = self._connection.execute
        run("BEGIN")
        run("CREATE VIRTUAL TABLE texts USING fts5 (content, tokenize = 'porter unicode61')")
        rows = self._connection.execute("SELECT quilt, public, members FROM source.indexed")
        self._connection.executemany(
            "INSERT INTO texts (rowid, content) VALUES (?, ?)",
            (
                (id, _BETWEEN.join([*json.loads(public).values(), *json.loads(members).values()]))
                for id, public, members in rows.fetchall()
            ),
        )
        run("CREATE TABLE span (quilt INTEGER PRIMARY KEY, first INTEGER, last INTEGER)")
        run("""INSERT INTO span SELECT quilt, substr(date_earliest, 1, 4) + 0,
               substr(date_latest, 1, 4) + 0 FROM source.phase""")
        for name, pairs in _PAIRS.items():
            columns = "quilt INTEGER, value, PRIMARY KEY (quilt, value)"
            run(f"CREATE TABLE {name}_of ({columns}) WITHOUT ROWID")
            run(f"INSERT OR IGNORE INTO {name}_of {pairs}")
            run(f"CREATE INDEX {name}_having ON {name}_of (value)")
        run("COMMIT")
        run("ANALYZE")
        run("INSERT INTO texts (texts) VALUES ('optimize')")

    def page(
        self, match: str, years: tuple[int, int] | None = None, technique: str | None = None
    ) -> int:
        """Make a result page: hits, total, all facets, 20 extracts; return the total."""
        run = self._connection.execute
        run("CREATE TEMP TABLE IF NOT EXISTS hits (quilt INTEGER PRIMARY KEY)")
        run("DELETE FROM hits")
        within = " AND +rowid IN (SELECT quilt FROM span WHERE first <= ? AND last >= ?)"
        where, values = "texts MATCH ?", [match]
        if years is not None:
            where, values = where + within, [match, years[1], years[0]]
        if match:
            run(f"INSERT INTO hits SELECT rowid FROM texts WHERE {where}", values)
        else:
            run("INSERT INTO hits SELECT quilt FROM technique_of WHERE value = ?", [technique])
        total = run("SELECT count(*) FROM hits").fetchone()[0]
        joined = "CROSS JOIN" if total < _FEW else "JOIN"
        for name in _PAIRS:
            # From few hits outwards, else as SQLite plans; a chosen facet is counted as if nothing
            # were chosen in it.
            alone = name == "technique" and not match
            source = f"{name}_of" if alone else f"hits {joined} {name}_of USING (quilt)"
            run(f"""SELECT value, count(*) AS n FROM {source}
                    GROUP BY value ORDER BY n DESC LIMIT 12""").fetchall()
        if match:
            run(
                f"""SELECT rowid, snippet(texts, 0, '[', ']', '...', 27) FROM texts
                    WHERE {where} ORDER BY rank LIMIT 20""",
                values,
            ).fetchall()
        else:
            run("""SELECT id FROM hits JOIN source.quilt ON id = quilt
                   ORDER BY accession_key LIMIT 20""")
        return int(total)

    def size(self) -> int:
        """Return the bytes of the texts' index alone, without the facets."""
        run = self._connection.execute
        row = run("SELECT sum(length(block)) FROM texts_data").fetchone()
        return int(row[0])
