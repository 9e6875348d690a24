"""What is printed of one quilt: the record and, in an exhibit, its place and its label's text."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.collection.records import Quilt
from catalogue.collection.related import Related
from catalogue.collection.settings import Settings


@dataclass(frozen=True)
class Entry:
    """One quilt to print: `number` and `label_text` come from an exhibit, `proof` marks a draft."""

    quilt: Quilt
    related: Related
    house: Settings
    number: str = ""
    label_text: str = ""
    proof: bool = False

    @property
    def accession(self) -> str:
        """The accession number, or that there is none yet."""
        return self.quilt.accession or "not accessioned"
