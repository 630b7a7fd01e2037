"""Rows of a table of readings, one after another, to readings, checks of instruments, and what cannot be used."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction

from sizewright.judge.model import CheckReading, Reading, Unreadable
from sizewright.judge.places import asked
from sizewright.judge.tables import ReadingRow
from sizewright.judge.values import ReadingError, read_value, same_unit, unit_word
from sizewright.plan.model import Plan, PlanLine
from sizewright.sheet.near import did_you_mean, near, quoted
from sizewright.text.numbers import Number, as_decimal

CHECK = "check"
UNDONE = "undone"
_WHOLE = re.compile(r"\d{1,6}(?:\.0)?")
_NAMED_SERIAL = re.compile(r"(?P<name>.*\S)\s+#\s*(?P<serial>\S.*)")
_Slot = tuple[str, int, int, str]


class _UnusableError(Exception):
    """A row that cannot be used; the text says why."""


class RowReader:
    """Takes the rows of one file one after another. What is wrong with one is gathered, never raised."""

    def __init__(self, plan: Plan, heads: Mapping[str, bool]) -> None:
        """`heads` tells of our column names whether the file has them."""
        self.readings: list[Reading] = []
        self.checks: list[CheckReading] = []
        self.unreadable: list[Unreadable] = []
        self.undone: list[Reading | CheckReading] = []
        self._plan = plan
        self._heads = heads
        self._lines = {line.number: line for line in plan.lines}
        self._seen: Counter[tuple[str, str, str]] = Counter()
        self._serials: dict[str, int] = {}

    def take(self, row: ReadingRow) -> None:
        """Read one row. A row without a value is a reading that is missing, and says nothing."""
        undoes = row["note"].casefold() == UNDONE and not row["value"]
        if not row["value"] and not undoes and "value" not in row.problems:
            return
        try:
            if row["balloon"].casefold() == CHECK:
                self._check(row, undoes)
            else:
                self._reading(row, undoes)
        except (_UnusableError, ReadingError) as error:
            self.unreadable.append(Unreadable(row.place, row.text, str(error)))

    def remarks(self) -> list[str]:
        """What should be known of how the rows were taken."""
        said = []
        if self._serials:
            pairs = [f"{text} is {number}" for text, number in self._serials.items()]
            shown = ", ".join(pairs[:8]) + (" ..." if len(pairs) > 8 else "")
            said.append(f"the pieces are named, and numbered in the order they come: {shown}")
        if "piece" not in self._heads and self.readings and self._heads:
            said.append("no column tells the piece: readings of a balloon are taken in order, piece after piece")
        if self.undone:
            count = len(self.undone)
            said.append(f"{count} {'row was' if count == 1 else 'rows were'} undone; they are kept in the file")
        return said

    def _reading(self, row: ReadingRow, undoes: bool) -> None:
        line = self._line(row["balloon"])
        of = self._of(line, row)
        piece = self._piece(line, of, row)
        instance = self._instance(line, of, row, piece)
        slot = (line.number, piece, instance, of)
        if undoes:
            self._undo(slot)
            return
        self._trusted(row)
        made = line.characteristic
        if made is None:
            raise _UnusableError(f"balloon {line.number} does not read on the sheet, so nothing can be measured by it")
        value, answer, _ = read_value(row["value"], made.unit, row["unit"])
        if value is not None and not of and len(made.limits) > 1:
            raise _UnusableError(
                f"a value of balloon {line.number} has to tell what was measured; {self._offers(line)}"
            )
        self.readings.append(
            Reading(
                line.number, piece, instance, of, row["value"], value, answer, made.unit, _instrument(row), row["by"],
                row["when"], row["note"], row.place,
            )
        )  # fmt: skip

    def _check(self, row: ReadingRow, undoes: bool) -> None:
        name, serial = name_and_serial(_instrument(row))
        if undoes:
            self._undo_check(name, serial, row["limits of"])
            return
        if not name:
            raise _UnusableError("a check has to name its instrument")
        unit = row["unit"] or next(
            (tool.unit for tool, _ in self._plan.instruments if tool.name.casefold() == name.casefold()), "mm"
        )
        unit = next((each for each in ("mm", "inch", "um", "uin", "deg") if same_unit(unit_word(unit), each)), unit)
        lower, upper = _bound(row["lower limit"], unit), _bound(row["upper limit"], unit)
        try:
            self._trusted(row)
            value, answer, _ = read_value(row["value"], unit)
            passed = _passed(value, lower, upper) if answer is None else answer == "accept"
        except (_UnusableError, ReadingError):
            passed = None  # the instrument was checked, and what it showed does not read: that taints what follows
        self.checks.append(
            CheckReading(
                name,
                serial,
                row["limits of"],
                lower,
                upper,
                unit,
                row["value"],
                passed,
                row["by"],
                row["when"],
                row.place,
            )
        )

    def _trusted(self, row: ReadingRow) -> None:
        if "value" in row.problems:
            raise _UnusableError(row.problems["value"])

    def _undo(self, slot: _Slot) -> None:
        for index in range(len(self.readings) - 1, -1, -1):
            each = self.readings[index]
            if (each.line, each.piece, each.instance, each.of) == slot:
                self.undone.append(self.readings.pop(index))
                return
        raise _UnusableError("it undoes a reading that is not there")

    def _undo_check(self, name: str, serial: str, point: str) -> None:
        for index in range(len(self.checks) - 1, -1, -1):
            each = self.checks[index]
            if (each.instrument, each.serial, each.point) == (name, serial, point):
                self.undone.append(self.checks.pop(index))
                return
        raise _UnusableError("it undoes a check that is not there")

    def _line(self, typed: str) -> PlanLine:
        number = _balloon(typed)
        if number in self._lines:
            return self._lines[number]
        if not number:
            raise _UnusableError("the row has no balloon")
        parts = [each for each in self._lines if each.startswith(f"{number}.")]
        if parts:
            raise _UnusableError(f"balloon {number} has several characteristics: one of {', '.join(parts)} is meant")
        hint = did_you_mean(near(number, self._lines)) or f"the plan has {_listed(list(self._lines))}"
        raise _UnusableError(f"the plan has no balloon {quoted(typed)}; {hint}")

    def _of(self, line: PlanLine, row: ReadingRow) -> str:
        """Which of the line's limits is meant, by its name with or without the word diameter."""
        typed = " ".join(row["limits of"].casefold().split())
        names = [limits.of for limits in line.limits]
        if not typed or (len(names) < 2 and typed in ("size", "zone", "value", *names)):
            if len(asked(line)) > 1 and not typed:
                raise _UnusableError(f"balloon {line.number} has several limits; {self._offers(line)}")
            return ""
        for name in names:
            if typed in (name, name.removesuffix(" diameter")):
                return name if len(names) > 1 else ""
        raise _UnusableError(f"balloon {line.number} has no limits of {quoted(row['limits of'])}; {self._offers(line)}")

    def _offers(self, line: PlanLine) -> str:
        names = [limits.of for limits in line.limits]
        return f"limits of: {' or '.join(names)}" if names else "it has none"

    def _piece(self, line: PlanLine, of: str, row: ReadingRow) -> int:
        typed = row["piece"]
        if _WHOLE.fullmatch(typed):
            piece = int(typed.removesuffix(".0"))
            if not piece:
                raise _UnusableError("pieces are counted from 1")
            return piece
        if typed:
            return self._serials.setdefault(typed, len(self._serials) + 1)
        if self._heads.get("piece"):
            if line.pieces == 1:
                return 1
            raise _UnusableError("the row does not tell the piece")
        places = 1 if self._heads.get("instance") else max(1, line.readings_per_piece)
        seen = self._seen[line.number, of, f"piece {row['instance']}"]
        self._seen[line.number, of, f"piece {row['instance']}"] += 1
        return seen // places + 1

    def _instance(self, line: PlanLine, of: str, row: ReadingRow, piece: int) -> int:
        typed = row["instance"]
        if _WHOLE.fullmatch(typed):
            instance = int(typed.removesuffix(".0"))
            if not instance:
                raise _UnusableError("instances are counted from 1")
            return instance
        if typed:
            raise _UnusableError(f"the instance {quoted(typed)} is no whole number")
        if line.readings_per_piece <= 1:
            return 1
        if self._heads.get("instance"):
            raise _UnusableError(
                f"balloon {line.number} has {line.readings_per_piece} places; the row does not tell which"
            )
        self._seen[line.number, of, f"instance {piece}"] += 1
        return self._seen[line.number, of, f"instance {piece}"]


def name_and_serial(text: str) -> tuple[str, str]:
    """An instrument's name and its serial number, from `name #serial`."""
    found = _NAMED_SERIAL.fullmatch(text.strip())
    return (found["name"], found["serial"].strip()) if found else (text.strip(), "")


def _instrument(row: ReadingRow) -> str:
    name = row["instrument"]
    serial = row["serial"].lstrip("# ")
    return f"{name} #{serial}" if name and serial and " #" not in name else name


def _balloon(typed: str) -> str:
    """A balloon as the plan numbers it: `#7`, `07`, `7.` and `(7)` are 7."""
    text = typed.strip().strip("#()").strip().removesuffix(".")
    whole, mark, rest = text.partition(".")
    return f"{int(whole)}{mark}{rest}" if whole.isascii() and whole.isdigit() and len(whole) < 9 else text


def _listed(numbers: list[str]) -> str:
    return ", ".join(numbers) if len(numbers) <= 8 else f"{', '.join(numbers[:4])} ... {numbers[-1]}"


def _bound(text: str, unit: str) -> Number | None:
    try:
        return read_value(text, unit).value if text else None
    except ReadingError:
        return None


def _passed(value: Number | None, lower: Number | None, upper: Number | None) -> bool | None:
    """Whether a check's value lies within its limits; None where there are none to hold it against."""
    if value is None or (lower is None and upper is None):
        return None
    return (lower is None or _above(value, lower) >= 0) and (upper is None or _above(value, upper) <= 0)


def _above(value: Number, bound: Number) -> Number:
    """By how much a value is above a bound of the file. An angle's bound stands there to nine places, so that 2' would
    be above its own limit of 2': the value is taken to as many."""
    if isinstance(bound, Fraction):
        return as_decimal(value) - as_decimal(bound)
    return value - bound if isinstance(value, Decimal) else value - Fraction(bound)
