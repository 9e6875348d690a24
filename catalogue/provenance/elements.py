"""From the party on: the elements of a period, each told by its words and its place."""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field

from catalogue.provenance import recognising as words
from catalogue.provenance.methods import leading_method
from catalogue.provenance.splitting import split_top
from catalogue.provenance.transfer_dates import (
    NO_DATES,
    TransferDates,
    could_begin_dates,
    read_transfer_dates,
)
from catalogue.values.dates import DateError
from catalogue.values.life_dates import LifeDatesError, parse_life_dates

__all__ = ["Elements", "Item"]

_MOST_DATE_PARTS = 4  # "between May 5, 1935 and June 6, 1936, ..." is cut at its commas
_QUOTED = re.compile(r"(?P<open>[\"“])(?P<event>.+?)[\"”](?:,|\s+at\b)?\s*(?P<rest>.*)")
_DAY_OF_MONTH = re.compile(r"[A-Za-z]+\.? [0-9]{1,2}")


@dataclass(frozen=True)
class Item:
    """Words up to the next comma or bracket, and whether a comma stands before them."""

    comma: bool
    text: str


@dataclass
class Elements:
    """Collects the fields of one period while its words are taken from left to right."""

    values: dict[str, str] = field(default_factory=dict)
    slots: list[str] = field(default_factory=list)
    doubtful: set[str] = field(default_factory=set)
    unread: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    dates: TransferDates = NO_DATES
    items: deque[Item] = field(default_factory=deque)

    def fill(self, text: str, first_comma: bool = False) -> None:
        """Cut the text into items at its commas and around its brackets."""
        for place, segment in enumerate(split_top(text)):
            comma = first_comma if place == 0 else True
            bare, notes = words.take_notes(segment)
            for group in words.split_groups(bare):
                if group.strip(" .;"):
                    self.items.append(Item(comma, group))
                    comma = False
            if notes:
                self.items.append(Item(False, "".join(f"[{marker}]" for marker in notes)))

    def take_party(self) -> None:
        """Take the first words as the party, unless they are a date or a clause."""
        if not self.items:
            return
        first = self.items[0].text
        if first.startswith(("from ", "at ", "[")) or self._dates_ahead() or words.is_price(first):
            return
        if first.startswith("in ") and words.is_place(first[3:]):
            return
        item = self._without_clause(self.items.popleft())
        name = item.text
        while self.items and self.items[0].comma:
            following = words.split_clause(self.items[0].text)[0]
            if not words.continues_name(name, following):
                break
            self._without_clause(self.items.popleft())
            item = Item(item.comma, f"{item.text}, {following}")
        self.put("party", "party", item)

    def take_all(self) -> None:
        """Take every item; what no rule knows is kept as unread words, with a caution."""
        rules: tuple[Callable[[Item], bool], ...] = (
            self._take_brackets,
            self._take_terms,
            self._take_sale,
            self._take_transfer_place,
            self._take_method,
            self._take_relation,
            self._take_place,
        )
        while self.items:
            if self._take_dates():
                continue
            item = self._without_clause(self.items.popleft())
            if not any(rule(item) for rule in rules):
                self._leave(item.comma, item.text, "")

    def put(self, field_name: str, slot: str, item: Item) -> bool:
        """Set a field once, its question mark turned into doubt; False where it is set already."""
        if field_name in self.values:
            return False
        text = item.text.removesuffix("?").rstrip() or item.text
        if text != item.text:
            self.doubtful.add(field_name)
        self.values[field_name] = text
        self.slots.append("," * item.comma + slot)
        return True

    def _leave(self, comma: bool, text: str, why: str) -> None:
        self.unread.append(text)
        self.slots.append("," * comma + "unread")
        self.cautions.append(why or f'"{text}" is kept as written, but not understood.')

    def _without_clause(self, item: Item) -> Item:
        """Put a clause inside the item (`Boston in 1937`) back as an item of its own."""
        head, tail = words.split_clause(item.text)
        if tail:
            self.items.appendleft(Item(False, tail))
        return Item(item.comma, head)

    # Dates

    def _take_dates(self) -> bool:
        found = self._dates_ahead()
        if found is None:
            return self._leave_bad_date()
        count, dates = found
        self.slots.append("," * self.items[0].comma + "dates")
        for _ in range(count):
            self.items.popleft()
        self.dates = dates
        if dates.caution:
            self.cautions.append(dates.caution)
        return True

    def _dates_ahead(self) -> tuple[int, TransferDates] | None:
        """Return how many items from the first make up dates, and the dates."""
        if self.dates.phrase or not could_begin_dates(self.items[0].text):
            return None
        for count in range(min(_MOST_DATE_PARTS, len(self.items)), 0, -1):
            try:
                return count, read_transfer_dates(self._together(count))
            except DateError:
                continue
        return None

    def _together(self, count: int) -> str:
        parts = [self.items[index] for index in range(count)]
        rest = "".join(("," if part.comma else "") + f" {part.text}" for part in parts[1:])
        return parts[0].text + rest

    def _leave_bad_date(self) -> bool:
        """Keep words that begin like a date and hold a year, but cannot be read as one."""
        first = self.items[0]
        split_day = len(self.items) > 1 and _DAY_OF_MONTH.fullmatch(first.text) is not None
        count = 2 if split_day and self.items[1].text[:4].isdigit() else 1
        text = self._together(count)
        if not words.seems_dated(text):
            return False
        why = f'"{text}" is a second date in one period; it is kept as written.'
        if not self.dates.phrase:
            try:
                read_transfer_dates(text)
            except DateError as error:
                why = str(error)
        for _ in range(count):
            self.items.popleft()
        self._leave(first.comma, text, why)
        return True

    # The rules, each true where it took the item

    def _take_brackets(self, item: Item) -> bool:
        text = item.text
        if text == "?" and self.slots:
            self.doubtful.add("party")
            return True
        bare, notes = words.take_notes(text)
        if notes and not bare:
            self.note(notes)
            return True
        if text[:1] not in "[(" or not words.is_life(text) or "life" in self.values:
            return False
        self._check_life(text)
        self.values["life"] = text[1:-1].strip()
        self.slots.append("," * item.comma + "life")
        return True

    def note(self, notes: tuple[str, ...]) -> None:
        """Keep the markers; where they stand in several places they are printed at the end."""
        if not notes:
            return
        self.slots = [slot for slot in self.slots if slot != "notes"]
        if not self.notes:
            self.slots.append("notes")
        self.notes.extend(notes)

    def _check_life(self, text: str) -> None:
        if text.startswith("("):
            self.cautions.append(
                f'"{text}" is read as life dates; the notation puts these in square brackets.'
            )
        try:
            parse_life_dates(text)
        except LifeDatesError as error:
            if "before" in str(error):
                self.cautions.append(str(error))

    def _take_terms(self, item: Item) -> bool:
        """Take stock number and price, by themselves or together in parentheses."""
        inside = item.text[1:-1] if item.text[0] == "(" and item.text[-1] == ")" else ""
        if inside and words.all_terms(inside):
            parts, slots = words.split_terms(inside), ["terms"]
        elif words.is_stock_number(item.text) or words.is_price(item.text):
            parts = [item.text]
            slots = ["," * item.comma + ("stock" if words.is_stock_number(item.text) else "price")]
        else:
            return False
        names = ["stock_number" if words.is_stock_number(part) else "price" for part in parts]
        if len(set(names)) < len(names) or any(name in self.values for name in names):
            return False
        self.values.update(zip(names, parts, strict=True))
        self.slots.extend(slots)
        return True

    def _take_sale(self, item: Item) -> bool:
        """Take `from "Event", seller's agent`; "at" means the same."""
        word, _, text = item.text.partition(" ")
        if word not in ("from", "at") or not text or {"event", "seller_agent"} & self.values.keys():
            return False
        quoted = _QUOTED.fullmatch(text)
        slot = "sale" + "@" * (word == "at")
        if quoted:
            self.values["event"], text = quoted["event"], quoted["rest"]
            slot += "“" * (quoted["open"] == "“")
            if not text and self.items and self._continues(self.items[0]):
                text = self._without_clause(self.items.popleft()).text
        self.slots.append("," * item.comma + slot)
        if text:
            self._put_long("seller_agent", text)
        return True

    def _take_transfer_place(self, item: Item) -> bool:
        word, _, place = item.text.partition(" ")
        if word != "in" or not words.is_place(place) or "transfer_place" in self.values:
            return False
        self.slots.append("," * item.comma + "transfer")
        self._put_long("transfer_place", place)
        return True

    def _take_method(self, item: Item) -> bool:
        short = item.text.startswith(("to ", "with "))  # methods at the head of a period only
        rest = None if short else self.put_method(item)
        if rest is None:
            return False
        if rest:
            self.items.appendleft(Item(False, rest))
        if "party" not in self.values:  # "1950, gift to Ann Lowe"
            self.take_party()
        return True

    def put_method(self, item: Item) -> str | None:
        """Take the method that begins the words and return the rest; None where there is none."""
        form = leading_method(item.text)
        if not form or "method" in self.values:
            return None
        self.values["method"] = form[0].lower() + form[1:]
        self.slots.append("," * item.comma + ("Method" if form[0].isupper() else "method"))
        return item.text[len(form) :].lstrip()

    def _take_relation(self, item: Item) -> bool:
        return words.is_relation(item.text) and self.put("relation", "relation", item)

    def _take_place(self, item: Item) -> bool:
        if not words.is_place(item.text) or "place" in self.values:
            return False
        self.slots.append("," * item.comma + "place")
        self._put_long("place", item.text)
        return True

    def _put_long(self, name: str, text: str) -> None:
        """Set a field whose words may go on over several commas, as places do."""
        while self.items and self._continues(self.items[0]):
            following = self._without_clause(self.items.popleft())
            text += ("," if following.comma else "") + f" {following.text}"
        bare = text.removesuffix("?").rstrip()
        if bare and bare != text:
            self.doubtful.add(name)
            text = bare
        self.values[name] = text

    def _continues(self, item: Item) -> bool:
        """True where the words after a comma can only go on with the place before it."""
        text = item.text
        ends = words.is_stock_number(text) or words.is_price(text) or words.seems_dated(text)
        starts_else = self._dates_ahead() is not None or leading_method(text)
        return item.comma and words.is_place(text) and not ends and not starts_else
