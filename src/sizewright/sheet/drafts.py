"""Lines while they are being read: gathered piece by piece, then numbered."""

from dataclasses import dataclass, field
from typing import NamedTuple

from sizewright.sheet.model import Class, Fault, Line
from sizewright.sheet.near import did_you_mean, either, near, quoted
from sizewright.sheet.shape import Piece
from sizewright.text.errors import CalloutError

CLASSES: tuple[Class, ...] = ("critical", "major", "minor")
MOST_BALLOON = 99_999


class Row(NamedTuple):
    """A line of a sheet, or of a cell, as typed, and its number in the file."""

    number: int
    typed: str


@dataclass(slots=True)
class Draft:
    """A line being read.

    `number` is None where the next free number is wanted; `after` is the offset at which a missing callout is missed.
    """

    row: Row
    after: int
    number: int | None = None
    number_piece: Piece | None = None
    zone: str = ""
    view: str = ""
    class_: Class | None = None
    remarks: list[str] = field(default_factory=list)
    pieces: list[tuple[Row, Piece]] = field(default_factory=list)

    def set_zone(self, text: str) -> None:
        """Take the zone `text`, with or without its @.

        Raises:
            CalloutError: it is empty, or a zone is there already; that one stays.
        """
        zone = text.removeprefix("@").strip()
        if not zone:
            raise CalloutError("no zone stands after the @", 0, len(text), 'as in "@C3"')
        if self.zone:
            raise CalloutError(f"a second zone; the first is {self.zone}", 0, len(text), "one for each line")
        self.zone = zone

    def set_class(self, text: str) -> None:
        """Take the class `text`, with or without its square brackets.

        Raises:
            CalloutError: it is none, or a class is there already; that one stays.
        """
        class_ = class_named(text)
        if self.class_:
            raise CalloutError(f"a second class; the first is {self.class_}", 0, len(text), "one for each line")
        self.class_ = class_

    def add_remark(self, piece: Piece | None) -> None:
        """Take the remark of one of its lines, semicolon and all."""
        remark = piece.text[1:].strip() if piece else ""
        self.remarks += [remark] if remark else []

    def line(self, number: int) -> Line:
        """The line under its balloon `number`."""
        starts = tuple((row.number, piece.offset + 1) for row, piece in self.pieces) or (
            (self.row.number, self.after + 1),
        )
        return Line(
            balloon=number,
            callout="\n".join(piece.text for _, piece in self.pieces),
            line=starts[0][0],
            column=starts[0][1],
            starts=starts,
            zone=self.zone,
            view=self.view,
            class_=self.class_,
            remark="; ".join(self.remarks),
            typed=tuple(row.typed for row, _ in self.pieces) or (self.row.typed,),
        )


def balloon_number(text: str) -> int:
    """The balloon number that `text` is.

    Raises:
        CalloutError: it is no whole number from 1 to 99999.
    """
    hint = "a whole number, 1 or more; sub-numbers such as 2.1 are given when the callout is read"
    if not text.isdecimal():
        raise CalloutError(f"{quoted(text)} is no balloon number", 0, len(text), hint)
    if len(text) > len(str(MOST_BALLOON)) or not 1 <= int(text) <= MOST_BALLOON:
        raise CalloutError(f"balloon numbers go from 1 to {MOST_BALLOON}", 0, len(text), hint)
    return int(text)


def class_named(text: str) -> Class:
    """The class that `text` names, with or without its square brackets.

    Raises:
        CalloutError: it names none.
    """
    word = text.removeprefix("[").removesuffix("]").strip().lower()
    for name in CLASSES:
        if word == name:
            return name
    hint = did_you_mean(near(word, CLASSES)) or f"what would read: {either(CLASSES)}"
    raise CalloutError(
        f"{quoted(word)} is no class" if word else "no class stands between the brackets", 0, len(text), hint
    )


def numbered(drafts: list[Draft]) -> tuple[tuple[Line, ...], list[Fault]]:
    """The lines with their balloons, and the faults that show only now.

    They are a line that holds no callout, and a balloon number typed twice; both lines keep it, with all they hold.
    A line without a number takes the smallest number after that of the line before it that no line claims.
    """
    claimed = {draft.number for draft in drafts if draft.number is not None}
    free = _Free(claimed)
    lines: list[Line] = []
    doubled: list[tuple[Draft, Line]] = []
    first: dict[int, Line] = {}
    before = 0
    for draft in drafts:
        number = free.take(before + 1) if draft.number is None else draft.number
        line = draft.line(number)
        if first.setdefault(number, line) is not line:
            doubled.append((draft, first[number]))
        lines.append(line)
        before = number
    empty = [_empty(draft, line) for draft, line in zip(drafts, lines, strict=True) if not draft.pieces]
    return tuple(lines), empty + [_doubled(draft, other, free) for draft, other in doubled]


def _empty(draft: Draft, line: Line) -> Fault:
    message = f"balloon {line.balloon} has no callout"
    return Fault(draft.row.number, draft.after + 1, 0, message, draft.row.typed, f'as in "{line.balloon}: 25 ±0.1"')


def _doubled(draft: Draft, other: Line, free: "_Free") -> Fault:
    piece = draft.number_piece or Piece("", draft.after)
    message = f"balloon {other.balloon} already stands on line {other.line}"
    hint = f"the next free number is {free.after(other.balloon + 1)}"
    return Fault(draft.row.number, piece.offset + 1, len(piece.text), message, draft.row.typed, hint)


class _Free:
    """The numbers nobody claims. Runs of claimed numbers are jumped over, so that long sheets stay quick."""

    def __init__(self, claimed: set[int]) -> None:
        self._jumps = {number: number + 1 for number in claimed}

    def after(self, number: int) -> int:
        """The smallest free number from `number` on."""
        passed: list[int] = []
        while number in self._jumps:
            passed.append(number)
            number = self._jumps[number]
        for each in passed:
            self._jumps[each] = number
        return number

    def take(self, number: int) -> int:
        """The same, which is free no longer."""
        free = self.after(number)
        self._jumps[free] = free + 1
        return free
