"""ISO 286-1: limit deviations of a tolerance class such as H7 or g6 at a nominal size.

Everything is read from the tables of the standard and put together by its rules. Where the standard gives no
value for a letter, a grade or a range of sizes, `NotDefined` is raised and nothing is extrapolated.
"""

import re
from decimal import Decimal
from typing import NamedTuple

from sizewright.standards import iso286_near
from sizewright.standards.iso286_tables import (
    GRADES,
    HOLE_LETTERS,
    LARGEST_SIZE,
    SHAFT_LETTERS,
    hole_deltas,
    hole_deviations,
    shaft_deviations,
    standard_tolerances,
)

_ZERO = Decimal("0.000")
_CLASS = re.compile(r"([A-Z]{1,2}|[a-z]{1,2})(01|0|[1-9][0-9]?)")
_RANK = {grade: rank for rank, grade in enumerate(GRADES)}
_IT3, _IT7, _IT8 = _RANK["3"], _RANK["7"], _RANK["8"]
_IT11, _IT14 = _RANK["11"], _RANK["14"]
_LOWER_DEVIATION_HOLES = frozenset(HOLE_LETTERS[: HOLE_LETTERS.index("H") + 1])
_UPPER_DEVIATION_SHAFTS = frozenset(SHAFT_LETTERS[: SHAFT_LETTERS.index("h") + 1])
_HOLES = frozenset(HOLE_LETTERS)
_SHAFTS = frozenset(SHAFT_LETTERS)
_SPLIT_AT_IT8 = frozenset({"K", "M", "N"})
_NO_DELTA_UPTO = Decimal(3)
_NO_DELTA_OVER = Decimal(500)
_M6_OVER, _M6_UPTO, _M6_UPPER = Decimal(250), Decimal(315), Decimal("-0.009")


class Deviations(NamedTuple):
    """The limit deviations of a size from its nominal size, both in the unit of that size."""

    lower: Decimal
    upper: Decimal

    @property
    def width(self) -> Decimal:
        """The tolerance: upper less lower limit deviation."""
        return self.upper - self.lower

    def limits(self, nominal: Decimal) -> tuple[Decimal, Decimal]:
        """The lower and the upper limit of size at a nominal size in the same unit."""
        return nominal + self.lower, nominal + self.upper


def split_class(text: str) -> tuple[str, str] | None:
    """Letters and grade of a text with the shape of a tolerance class (H7, js6, ZA01), or None.

    The shape says nothing about meaning: M6 is also a thread, and Q7 has the shape but no letter of the standard.
    """
    match = _CLASS.fullmatch(text)
    return (match[1], match[2]) if match else None


def is_class(text: str) -> bool:
    """Whether a text is a letter and a grade of ISO 286-1; the class may still be undefined at some or all sizes."""
    split = split_class(text)
    return split is not None and (split[0] in _HOLES or split[0] in _SHAFTS) and split[1] in _RANK


def is_hole(letters: str) -> bool:
    """Whether letters stand for a hole, an internal feature of size: holes have capital letters."""
    return letters.isupper()


def tolerance(grade: str, nominal: Decimal) -> Decimal:
    """The standard tolerance, in millimetres, of a grade ("7" for IT7) at a nominal size in millimetres.

    Raises:
        NotDefined: ISO 286-1, Table 1, has no such grade, or not at this size.
    """
    width = _tolerance(grade, nominal)
    if width is None:
        raise iso286_near.no_tolerance(grade, nominal, _grades_at(nominal))
    return width


def deviations(letters: str, grade: str, nominal: Decimal) -> Deviations:
    """The limit deviations, in millimetres, of a class such as ("H", "7") at a nominal size in millimetres.

    Raises:
        NotDefined: ISO 286-1 gives no value for the letter, the grade or the size.
    """
    found = find_deviations(letters, grade, nominal)
    if found is None:
        known = defined_classes(nominal, is_hole(letters))
        raise iso286_near.no_deviations(letters, grade, nominal, known)
    return found


def find_deviations(letters: str, grade: str, nominal: Decimal) -> Deviations | None:
    """As `deviations`, but None, and no reason, where ISO 286-1 gives no value; for searching many classes."""
    width = _tolerance(grade, nominal)
    if width is None:
        return None
    if letters in {"JS", "js"}:
        return Deviations(-width / 2, width / 2)
    if letters in _HOLES:
        return _hole(letters, grade, nominal, width)
    return _shaft(letters, grade, nominal, width) if letters in _SHAFTS else None


def defined_classes(nominal: Decimal, internal: bool | None = None) -> tuple[str, ...]:
    """All classes that ISO 286-1 defines at a nominal size in millimetres, by letter and then by grade.

    Holes only with `internal` true, shafts only with false. Empty outside of 0 to 3150 mm.
    """
    letters = {None: HOLE_LETTERS + SHAFT_LETTERS, True: HOLE_LETTERS, False: SHAFT_LETTERS}[internal]
    return tuple(
        letter + grade for letter in letters for grade in GRADES if find_deviations(letter, grade, nominal) is not None
    )


def rounded_symmetrical(grade: str, nominal: Decimal) -> Deviations:
    """The limit deviations of JS and js, in millimetres, with the rounding that ISO 286-1:1988 allowed.

    That edition let an odd number of micrometres in IT7 to IT11 be lowered to the even number below before it is
    halved. ISO 286-2:2010 prints the exact half, and so does `deviations`.

    Raises:
        NotDefined: ISO 286-1, Table 1, has no such grade, or not at this size.
    """
    width = tolerance(grade, nominal)
    if _IT7 <= _RANK[grade] <= _IT11:
        width -= width % Decimal("0.002")
    return Deviations(-width / 2, width / 2)


def _tolerance(grade: str, nominal: Decimal) -> Decimal | None:
    """ISO 286-1, Table 1 and its footnote: IT14 to IT18 are not for sizes up to and including 1 mm."""
    rank = _RANK.get(grade)
    if rank is None or not 0 < nominal <= LARGEST_SIZE or (rank >= _IT14 and nominal <= 1):
        return None
    return standard_tolerances().at(grade, nominal)


def _grades_at(nominal: Decimal) -> tuple[str, ...]:
    return tuple(grade for grade in GRADES if _tolerance(grade, nominal) is not None)


def _hole(letters: str, grade: str, nominal: Decimal, width: Decimal) -> Deviations | None:
    if letters in _LOWER_DEVIATION_HOLES:
        lower = hole_deviations().at(letters, nominal)
        return None if lower is None else Deviations(lower, lower + width)
    upper = _hole_upper(letters, grade, nominal)
    return None if upper is None else Deviations(upper - width, upper)


def _hole_upper(letters: str, grade: str, nominal: Decimal) -> Decimal | None:
    """ISO 286-1, Tables 2 and 3: ES of the holes J to ZC."""
    if letters == "M" and grade == "6" and _M6_OVER < nominal <= _M6_UPTO:
        return _M6_UPPER  # Table 2, footnote: the one class to which delta does not lead
    if letters == "J":
        return hole_deviations().at(letters + grade, nominal) if grade in {"6", "7", "8"} else None
    finest_without_delta = _IT8 if letters in _SPLIT_AT_IT8 else _IT7
    heading = letters
    if letters in _SPLIT_AT_IT8:
        heading += " to IT8" if _RANK[grade] <= _IT8 else " over IT8"
    base = hole_deviations().at(heading, nominal)
    delta = _delta(grade, nominal) if _RANK[grade] <= finest_without_delta else _ZERO
    return None if base is None or delta is None else base + delta


def _delta(grade: str, nominal: Decimal) -> Decimal | None:
    """ISO 286-1, Tables 2 and 3: delta in millimetres; none up to 3 mm and over 500 mm, and no value finer than IT3."""
    if nominal <= _NO_DELTA_UPTO or nominal > _NO_DELTA_OVER:
        return _ZERO
    return hole_deltas().at(grade, nominal) if _RANK[grade] >= _IT3 else None


def _shaft(letters: str, grade: str, nominal: Decimal, width: Decimal) -> Deviations | None:
    if letters in _UPPER_DEVIATION_SHAFTS:
        upper = shaft_deviations().at(letters, nominal)
        return None if upper is None else Deviations(upper - width, upper)
    heading = _shaft_heading(letters, grade)
    lower = None if heading is None else shaft_deviations().at(heading, nominal)
    return None if lower is None else Deviations(lower, lower + width)


def _shaft_heading(letters: str, grade: str) -> str | None:
    """ISO 286-1, Tables 4 and 5: j has columns for IT5 and IT6, IT7, IT8; k for IT4 to IT7 and for all others."""
    if letters == "j":
        return {"5": "j5 j6", "6": "j5 j6", "7": "j7", "8": "j8"}.get(grade)
    if letters == "k":
        return "k4 to k7" if grade in {"4", "5", "6", "7"} else "k other"
    return letters
