"""Why ISO 286-1 does not define a class, in one sentence, and which classes it defines close by."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from decimal import Decimal

from sizewright.standards.errors import NotDefined
from sizewright.standards.iso286_tables import (
    GRADES,
    HOLE_LETTERS,
    LARGEST_SIZE,
    SHAFT_LETTERS,
    RangeTable,
    hole_deviations,
    shaft_deviations,
)

_NEAR_COUNT = 4
_GRADE_RANK = {grade: rank for rank, grade in enumerate(GRADES)}
_DELTA_LETTERS = frozenset(HOLE_LETTERS[HOLE_LETTERS.index("K") :])
_LETTERS_WITHOUT_GRADE = {"J": "J6", "K": "K to IT8", "M": "M to IT8", "N": "N to IT8", "j": "j5 j6", "k": "k other"}


def no_tolerance(grade: str, nominal: Decimal, known_grades: Sequence[str]) -> NotDefined:
    """The error for a standard tolerance that is not in Table 1; sizes in millimetres."""
    reason = _size_reason(nominal) or _grade_reason(grade, nominal) or _unexpected(grade, nominal)
    nearest = sorted(known_grades, key=lambda known: _grade_distance(grade, known))
    return NotDefined(reason, tuple(f"IT{known}" for known in nearest[:2]))


def no_deviations(letters: str, grade: str, nominal: Decimal, known_classes: Sequence[str]) -> NotDefined:
    """The error for a class that is not defined at a nominal size in millimetres.

    `known_classes` are the classes of the same kind, hole or shaft, that are defined at that size.
    """
    reason = (
        _size_reason(nominal)
        or _letter_reason(letters)
        or _grade_reason(grade, nominal)
        or _column_reason(letters, grade, nominal)
        or _range_reason(letters, nominal)
        or _unexpected(letters + grade, nominal)
    )
    return NotDefined(reason, _nearest(letters if letters.isupper() else letters.lower(), grade, known_classes))


def _unexpected(name: str, nominal: Decimal) -> str:
    return f"ISO 286 gives no value for {name} at {nominal} mm"


def _size_reason(nominal: Decimal) -> str | None:
    if nominal <= 0:
        return f"ISO 286 sizes start above 0 mm, so {nominal} mm has no tolerance class"
    if nominal > LARGEST_SIZE:
        return f"ISO 286 sizes end at {LARGEST_SIZE} mm, so {nominal} mm has no tolerance class"
    return None


def _letter_reason(letters: str) -> str | None:
    if letters in HOLE_LETTERS or letters in SHAFT_LETTERS:
        return None
    if not (letters.isupper() or letters.islower()):
        return f"ISO 286 letters are all capital for a hole or all small for a shaft, which {letters} is not"
    return f"ISO 286 defines no {_kind(letters)} letter {letters}"


def _kind(letters: str) -> str:
    return "hole" if letters.isupper() else "shaft"


def _grade_reason(grade: str, nominal: Decimal) -> str | None:
    """ISO 286-1, Table 1: the grades and the sizes for which each has a value."""
    if grade not in _GRADE_RANK:
        return f"ISO 286 defines no grade IT{grade}: the grades are IT01, IT0 and IT1 to IT18"
    if grade in {"01", "0"} and nominal > 500:
        return f"grade IT{grade} ends at 500 mm, and {nominal} mm is above that"
    if _GRADE_RANK[grade] >= _GRADE_RANK["14"] and nominal <= 1:
        return f"grade IT14 and coarser starts above 1 mm, so IT{grade} is not defined at {nominal} mm"
    return None


def _column_reason(letters: str, grade: str, nominal: Decimal) -> str | None:
    """ISO 286-1, Tables 2 to 5: the letters that have values for some grades only."""
    rank = _GRADE_RANK[grade]
    if letters == "J" and nominal <= 500 and grade not in {"6", "7", "8"}:
        return f"hole letter J is defined for the grades IT6, IT7 and IT8 only, not for IT{grade}"
    if letters == "j" and nominal <= 500 and grade not in {"5", "6", "7", "8"}:
        return f"shaft letter j is defined for the grades IT5 to IT8 only, not for IT{grade}"
    if letters == "j" and grade == "8" and nominal <= 500:
        return f"shaft class j8 ends at 3 mm, and {nominal} mm is above that"
    if letters == "K" and rank > _GRADE_RANK["8"]:
        return f"hole letter K has no value for grades coarser than IT8 above 3 mm, so K{grade} is not defined"
    if letters == "N" and rank > _GRADE_RANK["8"] and nominal <= 1:
        return f"hole letter N in grades coarser than IT8 starts above 1 mm, so N{grade} is not defined at {nominal} mm"
    return _delta_reason(letters, grade, nominal)


def _delta_reason(letters: str, grade: str, nominal: Decimal) -> str | None:
    """ISO 286-1, Tables 2 and 3: delta, which the holes K to ZC need over 3 to 500 mm, starts with IT3."""
    needs_delta = letters in _DELTA_LETTERS and _GRADE_RANK[grade] < _GRADE_RANK["3"]
    if not needs_delta or _range_reason(letters, nominal):
        return None
    return f"hole letters K to ZC have no value finer than IT3 above 3 mm, so {letters}{grade} is not defined"


def _range_reason(letters: str, nominal: Decimal) -> str | None:
    """ISO 286-1, Tables 2 to 5: the letters that have values over a part of the sizes only."""
    table = hole_deviations() if letters.isupper() else shaft_deviations()
    first, last = _span(table, _LETTERS_WITHOUT_GRADE.get(letters, letters))
    if nominal <= first:
        return f"{_kind(letters)} letter {letters} starts above {first} mm, so it is not defined at {nominal} mm"
    if nominal > last:
        return f"{_kind(letters)} letter {letters} ends at {last} mm, and {nominal} mm is above that"
    return None


def _span(table: RangeTable, heading: str) -> tuple[Decimal, Decimal]:
    """The sizes above which and up to which a column has values, in millimetres."""
    filled = [index for index, cell in enumerate(table.columns[heading]) if cell is not None]
    first = table.bounds[filled[0] - 1] if filled[0] else Decimal(0)
    return first, table.bounds[filled[-1]]


def _nearest(letters: str, grade: str, known_classes: Sequence[str]) -> tuple[str, ...]:
    """Classes close by: first the same letter in the nearest grades, then the nearest letters in the same grade."""

    def distance(name: str) -> tuple[int, int]:
        known_letters = name.rstrip("0123456789")
        letter_steps = _letter_distance(letters, known_letters)
        grade_steps = _grade_distance(grade, name.removeprefix(known_letters))
        return letter_steps + grade_steps, letter_steps

    return tuple(sorted(known_classes, key=distance)[:_NEAR_COUNT])


def _letter_distance(asked: str, known: str) -> int:
    """Steps in the order of the standard, which is that of the alphabet; an unknown letter stands between two."""
    order = HOLE_LETTERS if known.isupper() else SHAFT_LETTERS
    position = bisect_left(order, asked)
    steps = order.index(known) - position
    if asked in order:
        return abs(steps)
    return steps + 1 if steps >= 0 else -steps


def _grade_distance(asked: str, known: str) -> int:
    if asked in _GRADE_RANK:
        return abs(_GRADE_RANK[asked] - _GRADE_RANK[known])
    beyond = int(asked) if asked.isdecimal() else 0
    return abs(beyond + 1 - _GRADE_RANK[known])
