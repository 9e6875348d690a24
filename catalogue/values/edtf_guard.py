"""The `edtf` library behind a guard: the second reader that every EDTF form must satisfy.

The library judges the form: where marks, X, seasons and brackets may stand. Numbers, order and
calendar are judged by `edtf_forms` before it is asked. Since its verdict does not depend on the
numbers, it is asked once a form: a text takes it 2 to 30 ms, a form seen before costs nothing.

Faults of edtf 5.0.2 that are kept from the user, each with its test:
- it crashes with AttributeError (1984-1X), TypeError (`/..`) or ValueError (1984-12-3X), and tells
  of it on standard output: crashes are caught and silenced, and where the text has a month or day
  partly unspecified, as the standard allows, our own reading stands;
- it strips blanks, and allows them inside sets; it accepts 29 February in common years and
  intervals that run backwards: `edtf_forms` refuses all of these;
- open ends come back as infinite floats, unknown ends as ten invented years, and significant
  digits are ignored: no bound is ever taken from it;
- `str()` damages Y3388E2S3 and puts blanks into sets: nothing is ever printed by it;
- its reader of plain language guesses in silence: never used.
"""

from __future__ import annotations

import re
from functools import lru_cache

from catalogue.values import edtf_forms
from catalogue.values.edtf_forms import DateError, quoted
from catalogue.values.edtf_points import Expression

_PARTLY_UNSPECIFIED = re.compile(r"-(?:X[0-9]|[0-9]X)(?![0-9X])")
"""A month or day with one digit unspecified."""


def guarded(text: str) -> Expression:
    """The EDTF text taken apart, agreed by both readers; raises `DateError` otherwise."""
    expression = edtf_forms.parse(text)
    verdict = library_reads(form_of(text))
    if verdict is None:
        verdict = bool(_PARTLY_UNSPECIFIED.search(text))
    if not verdict:
        raise DateError(f"{quoted(text)} is not a form of date that EDTF defines.")
    return expression


_DATE = re.compile(
    r"(?P<year>Y-?[0-9]+(?:E[0-9]+)?|[0-9X]{4})(?P<figures>S[0-9]+)?(?P<mark>[?~%]?)"
    r"(?:-(?P<before>[?~%]?)(?P<month>[0-9X]{2})(?P<after>[?~%]?)"
    r"(?:-(?P<last>[?~%]?)(?P<day>[0-9X]{2}))?)?(?P<time>T[0-9:]{8})?"
)


def form_of(text: str) -> str:
    """The same form of date with sample numbers: 1935~/1941-03 gives 1904~/1904-04."""
    if text[0] not in "[{":
        return _DATE.sub(_sample, text)
    forms = list(dict.fromkeys(_DATE.sub(_sample, part) for part in text[1:-1].split(",")))
    if len(forms) == 1 and "," in text:
        forms *= 2  # members of one form: two are enough to stay a set
    return text[0] + ",".join(forms) + text[-1]


def _sample(found: re.Match[str]) -> str:
    year, month, day = found["year"], found["month"], found["day"]
    if year.startswith("Y"):
        sample = ("Y-" if "-" in year else "Y") + ("19E4" if "E" in year else "19040")
    else:
        sample = _sample_digits(year, "1904")
    sample += ("S2" if found["figures"] else "") + found["mark"]
    if month:
        is_season = month.isdigit() and int(month) > 12
        written = month if is_season else _sample_digits(month, "04")
        sample += "-" + found["before"] + written + found["after"]
    if day:
        sample += "-" + found["last"] + _sample_digits(day, "12")
    return sample + ("T12:30:30" if found["time"] else "")


def _sample_digits(written: str, sample: str) -> str:
    return "".join("X" if w == "X" else s for w, s in zip(written, sample, strict=True))


@lru_cache(maxsize=4096)
def library_reads(form: str) -> bool | None:
    """Whether the `edtf` library accepts the text; None where it crashes over it."""
    # Imported on first use: the library takes longer to load than plain dates take to read.
    from edtf import EDTFParseException, parse_edtf
    from edtf.parser import parser_classes

    # It prints its own crashes to standard output, where the answers of commands go.
    vars(parser_classes)["print"] = _silence
    try:
        parse_edtf(form)
    except EDTFParseException:
        return False
    except (AttributeError, TypeError, ValueError):
        return None
    return True


def _silence(*_words: object) -> None:
    """Prints nothing."""
