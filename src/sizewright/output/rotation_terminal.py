"""A rotation on the terminal, and as plain text: the chart, the tasks, then what each person does when."""

from __future__ import annotations

import io
from collections.abc import Sequence

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table
from rich.text import Text

from sizewright.output import rotation_rows as shown
from sizewright.output.rotation_chart import LEGEND, chart_lines
from sizewright.output.rotation_rows import RotationSheet
from sizewright.output.terminal import make_console

_TASK_HEADS = ("task", "lines", "instrument", "readings", "minutes")
_SLOT_HEADS = ("from", "to", "task", "piece", "instrument", "lines")
_RIGHT = frozenset({"from", "to", "readings", "minutes", "piece"})


def print_rotation(sheet: RotationSheet, console: Console | None = None) -> None:
    """Print all of it on `console` (standard output when none is given)."""
    console = console or make_console()
    console.print(Text(f"Rotation: {shown.heading(sheet)}", style="bold"))
    for text in (*shown.summary(sheet), ""):
        console.print(Text(text))
    for line in chart_lines(sheet, console.width):
        console.print(Text(line), no_wrap=True, crop=False, overflow="ignore")
    console.print(Text(LEGEND))
    _title(console, "parts and tasks")
    for text in shown.part_rows(sheet):
        console.print(Text(text))
    rows = [(row.mark, row.lines, row.instrument, row.readings, row.minutes) for row in shown.task_rows(sheet)]
    console.print(_table(_TASK_HEADS, rows, console.width))
    for person in sheet.rotation.work.people:
        _title(console, shown.person_words(sheet, person))
        slots = shown.slot_rows(sheet, person)
        if slots:
            columns = [(row.start, row.end, row.task, row.piece, row.instrument, row.lines) for row in slots]
            console.print(_table(_SLOT_HEADS, columns, console.width))
    _title(console, "to know")
    for text in (*shown.notes(sheet), *shown.CAUTIONS):
        console.print(_item(text))


def rotation_text(sheet: RotationSheet, width: int = 100) -> str:
    """The rotation as `print_rotation` shows it, as plain text without escape sequences."""
    stream = io.StringIO()
    # A file is read anywhere, so nothing of this terminal and its environment may show in it.
    console = Console(file=stream, width=width, highlight=False, markup=False, emoji=False, force_terminal=False,
                      color_system=None, no_color=True)  # fmt: skip
    print_rotation(sheet, console)
    return "".join(f"{line.rstrip()}\n" for line in stream.getvalue().splitlines())


def _title(console: Console, text: str) -> None:
    console.print()
    console.print(Text(text, style="bold"))


def _item(text: str) -> Table:
    """One entry of a list, wrapped under its own beginning."""
    table = Table.grid()
    table.add_column(no_wrap=True)
    table.add_column(overflow="fold")
    table.add_row(Text(" - "), Text(text))
    return table


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]], width: int) -> Table:
    """A table whose short columns are never broken; the instrument and the lines wrap."""
    table = Table(box=SIMPLE_HEAD, safe_box=True, padding=(0, 1), pad_edge=False, collapse_padding=True)
    for place, head in enumerate(heads):
        longest = max(len(row[place]) for row in rows) if rows else 0
        if head == "instrument":
            table.add_column(head, overflow="fold", ratio=2)
        elif head == "lines":
            table.add_column(head, overflow="fold", ratio=1)
        else:
            justify = "right" if head in _RIGHT else "left"
            table.add_column(head, no_wrap=True, width=max(longest, len(head)), justify=justify)  # type: ignore[arg-type]
    table.width = width
    for row in rows:
        table.add_row(*map(Text, row))
    return table
