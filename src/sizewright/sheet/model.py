"""A sheet as typed: title block, views, ballooned lines, and its faults. Callouts are still text here."""

from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal, NamedTuple

Class = Literal["critical", "major", "minor"]


class Entry(NamedTuple):
    """One title-block entry and where it stands (1-based line and column of its value); `typed` is that whole line."""

    word: str
    value: str
    line: int
    column: int
    typed: str = ""


class Line(NamedTuple):
    """One ballooned callout. `callout` may hold line breaks; `starts` gives for each of its lines the sheet's line and
    the column at which it begins (both 1-based), and `typed` the text of that whole line, so that an error in the
    callout can be shown in the sheet."""

    balloon: int
    callout: str
    line: int
    column: int
    starts: tuple[tuple[int, int], ...] = ()
    zone: str = ""
    view: str = ""
    class_: Class | None = None
    remark: str = ""
    typed: tuple[str, ...] = ()


class Fault(NamedTuple):
    """One thing wrong with a sheet, at its place (1-based), with the line's text and what would read or is near."""

    line: int
    column: int
    length: int
    message: str
    text: str
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet read whole: what could be read, every fault, and remarks on how the file was read that are no faults."""

    source: Path
    title: dict[str, Entry] = field(default_factory=dict)
    lines: tuple[Line, ...] = ()
    faults: tuple[Fault, ...] = ()
    remarks: tuple[str, ...] = ()
