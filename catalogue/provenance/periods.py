"""One period of ownership and a whole provenance, as values that print themselves nowhere."""

from __future__ import annotations

from dataclasses import dataclass, field

from catalogue.provenance.methods import Method, find_method
from catalogue.provenance.transfer_dates import NO_DATES, Bounds, TransferDates

__all__ = ["UNKNOWN_PARTY", "Note", "Period", "Provenance"]

UNKNOWN_PARTY = "Unknown party"
"""What the standard writes where the party is not known; a party is never blank."""


@dataclass(frozen=True)
class Period:
    """One party's time with the object; every text field is "" where nothing is recorded.

    - `party`, `life` (as written, without brackets), `relation` ("son of previous"), `place`: who
      received it, and where that party belongs; `agent` bought on the party's behalf.
    - `method`: how it came, in the words written; `event` and `seller_agent`: the sale and who
      held it; `transfer_place`: where it passed.
    - `dates`, `stock_number`, `price`; `notes`: the markers of footnotes and citations in order.
    - `possibly`: the whole period is in doubt, in the word of `hedge`; `doubtful`: the elements
      followed by a question mark, by their names here, and "begins" or "ends" for dates.
    - `dealer`: the period stands in parentheses. `direct_transfer`: whether it passed directly to
      the next period; None on the last.
    - `unread`: words that fit nowhere. `layout`: the order and the commas the writer used, in the
      signs of `catalogue.provenance.printing`; "" means the standard's order.
    - `text`: the words the period was read from.
    """

    party: str = UNKNOWN_PARTY
    life: str = ""
    relation: str = ""
    place: str = ""
    method: str = ""
    agent: str = ""
    event: str = ""
    seller_agent: str = ""
    transfer_place: str = ""
    dates: TransferDates = NO_DATES
    stock_number: str = ""
    price: str = ""
    notes: tuple[str, ...] = ()
    possibly: bool = False
    hedge: str = "possibly"
    doubtful: frozenset[str] = frozenset()
    dealer: bool = False
    direct_transfer: bool | None = None
    unread: tuple[str, ...] = ()
    layout: str = field(default="", compare=False)
    text: str = field(default="", compare=False)

    @property
    def begins(self) -> Bounds:
        """Earliest and latest day on which the party received the object."""
        return self.dates.begins

    @property
    def ends(self) -> Bounds:
        """Earliest and latest day on which it left the party."""
        return self.dates.ends

    @property
    def citations(self) -> tuple[str, ...]:
        """The markers that point to citations: those that are letters."""
        return tuple(marker for marker in self.notes if marker.isalpha())

    @property
    def known_method(self) -> Method | None:
        """The entry of the standard's vocabulary that the written method stands for."""
        return find_method(self.method)

    @property
    def is_owner(self) -> bool:
        """False for custody only: loans, deposits, dealers' consignments and thieves."""
        return self.known_method is None or self.known_method.owns

    @property
    def all_doubts(self) -> frozenset[str]:
        """The doubtful elements, those of the dates included."""
        begins = {"begins"} if self.dates.begins_doubtful else set()
        ends = {"ends"} if self.dates.ends_doubtful else set()
        return self.doubtful | begins | ends


@dataclass(frozen=True)
class Note:
    """One entry after the paragraph; `marker` is "" in lists that have none, as of authorities.

    `pointed` keeps whether a point follows the marker: `[1]. text`.
    """

    marker: str
    text: str
    heading: str = "Notes"
    pointed: bool = True


@dataclass(frozen=True)
class Provenance:
    """Periods from the earliest, the entries that stand after them, and cautions for the reader.

    `ending` is the sign after the last period.
    """

    periods: tuple[Period, ...] = ()
    notes: tuple[Note, ...] = ()
    cautions: tuple[str, ...] = ()
    ending: str = "."
