"""A plan on the terminal, by Rich: sampling, a table for each view, instruments, methods, remarks, faults, cautions.

Text columns wrap; number columns are as wide as their longest number, so that none is ever cut or broken.
"""

from __future__ import annotations

import io
import os
from collections.abc import Callable, Iterable, Sequence
from typing import IO

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table
from rich.text import Text

from sizewright.output.front import (
    fault_words,
    heading,
    instrument_rows,
    methods,
    remarks,
    sampling_sentences,
    title_block,
    unread_words,
)
from sizewright.output.rows import Bound, Row, groups_of, readings_words, rows_of
from sizewright.output.safe import visible
from sizewright.plan.model import Plan

WIDE = 110  # from here on the characteristic and the aim get columns of their own
_LEAST_TEXT = 16
_NONE = "–"


def make_console(file: IO[str] | None = None, width: int | None = None) -> Console:
    """A console that takes text as it is: plain when `file` is no terminal, without colour when NO_COLOR is set."""
    console = Console(file=file, width=width, highlight=False, markup=False, emoji=False, soft_wrap=False)
    if os.environ.get("NO_COLOR"):
        console.no_color = True
    return console


def print_plan(plan: Plan, console: Console | None = None) -> None:
    """Print the whole plan on `console` (standard output when none is given)."""
    console = console or make_console()
    rows = rows_of(plan)
    say(console, Text(heading(plan), style="bold"))
    if incomplete := unread_words(rows):
        say(console, Text(incomplete, style="bold"))
    console.print()
    show(console, pairs(title_block(plan)))
    notes(console, "sampling", sampling_sentences(plan))
    for title, group in groups_of(plan, rows):
        if title:
            say(console, Text(title, style="bold"))
        show(console, _view_table(group, console.width))
    _instruments(console, plan)
    notes(console, "methods", [note.sentence() for note in methods(rows)])
    notes(console, "remarks", [note.sentence() for note in remarks(rows)])
    notes(console, "faults", [fault_words(fault) for fault in plan.faults])
    notes(console, "cautions", [visible(caution) for caution in plan.cautions])


def plan_text(plan: Plan, width: int = 100) -> str:
    """The plan as `print_plan` shows it, as plain text without escape sequences."""
    return plain_text(lambda console: print_plan(plan, console), width)


def plain_text(shown: Callable[[Console], None], width: int) -> str:
    """What `shown` prints, as plain text without escape sequences."""
    stream = io.StringIO()
    # A file is read anywhere, so nothing of this terminal and its environment may show in it.
    console = Console(file=stream, width=width, highlight=False, markup=False, emoji=False, force_terminal=False,
                      color_system=None, no_color=True)  # fmt: skip
    shown(console)
    return "".join(f"{line.rstrip()}\n" for line in stream.getvalue().splitlines())


def say(console: Console, text: Text) -> None:
    """A line with an empty one before it."""
    console.print()
    console.print(text)


def show(console: Console, table: Table) -> None:
    """Print a table as wide as it is."""
    # On a screen too narrow for the numbers the terminal wraps the line; cutting it off would lose a limit.
    console.print(table, crop=False, overflow="ignore", no_wrap=True)


def pairs(entries: Iterable[tuple[str, str]]) -> Table:
    """Words and what they stand for, below each other."""
    table = Table.grid(padding=(0, 2, 0, 0))
    table.add_column(no_wrap=True)
    table.add_column(overflow="fold")
    for word, value in entries:
        table.add_row(Text(word), Text(value))
    return table


def _view_table(rows: Sequence[Row], screen: int) -> Table:
    wide = screen >= WIDE
    table = Table(box=SIMPLE_HEAD, safe_box=True, padding=(0, 1), pad_edge=False, collapse_padding=True)
    table.add_column("no.", overflow="fold", width=max(3, *(len(row.number) for row in rows)))
    table.add_column("requirement" if wide else "requirement, characteristic", overflow="fold", ratio=4)
    if wide:
        table.add_column("characteristic", overflow="fold", ratio=4)
    bounds = [bound for row in rows for bound in (*row.limits, *row.other_limits)]
    _number_column(table, "lower", [bound.said_lower for bound in bounds])
    _number_column(table, "upper", [bound.said_upper for bound in bounds])
    _number_column(table, "unit", [unit for row in rows for unit in (row.unit, row.other_unit)], "left")
    if wide:
        _number_column(table, "aim", [row.aim for row in rows])
    table.add_column("instrument, readings", overflow="fold", ratio=3)
    table.width = max(screen, _width_needed(table))
    for row in rows:
        _add(table, row, wide)
    return table


def _number_column(table: Table, head: str, texts: Iterable[str], justify: str = "right") -> None:
    width = max(map(len, (head, *texts)))
    table.add_column(head, justify=justify, no_wrap=True, width=width)  # type: ignore[arg-type]


def _width_needed(table: Table) -> int:
    return sum((column.width or _LEAST_TEXT) + 3 for column in table.columns)


def _add(table: Table, row: Row, wide: bool) -> None:
    """Add a row; a lone limit stands on its first line, several follow on lines of their own with their names."""
    lone = len(row.limits) == 1 and not row.either
    first = row.limits[0] if lone else Bound("", "", "")
    words = [row.class_, row.characteristic, row.standing]
    typed = [stack(row.requirement), stack("", words)] if wide else [stack(row.requirement, words)]
    aim = [Text(row.aim)] if wide else []
    tool = stack("", _tool(row, with_aim=not wide))
    bounded = (_bound(first.said_lower, row), _bound(first.said_upper, row))
    table.add_row(stack(row.number, [row.zone]), *typed, *bounded, Text(row.unit), *aim, tool)
    _add_bounds(table, () if lone else row.limits, row.unit, wide)
    _add_bounds(table, row.other_limits, row.other_unit, wide, prefix=f"in {row.other_unit}")
    table.add_section()


def _bound(text: str, row: Row) -> Text:
    return Text(text or (_NONE if len(row.limits) == 1 else ""))


def _add_bounds(table: Table, bounds: Sequence[Bound], unit: str, wide: bool, prefix: str = "") -> None:
    for bound in bounds:
        name = ", ".join(filter(None, (prefix, bound.label if not prefix or len(bounds) > 1 else "")))
        names = [Text(""), Text(name)] if wide else [Text(f"  {name}")]
        rest = [Text("")] * (2 if wide else 1)
        table.add_row("", *names, Text(bound.said_lower or _NONE), Text(bound.said_upper or _NONE), Text(unit), *rest)


def stack(strong: str, others: Sequence[str] = ()) -> Text:
    """Lines of text below each other, the first in bold."""
    lines = [Text(strong, style="bold"), *(Text(each) for each in others)]
    return Text("\n").join(line for line in lines if line)


def _tool(row: Row, with_aim: bool) -> list[str]:
    readings = readings_words(row)
    return [
        row.instrument,
        f"read to {row.resolution}" if row.resolution else "",
        f"aim {row.aim}" if with_aim and row.aim else "",
        f"readings: {readings}" if readings else "",
    ]


def _instruments(console: Console, plan: Plan) -> None:
    rows = instrument_rows(plan)
    if not rows:
        return
    say(console, Text("instruments needed", style="bold"))
    items = []
    for row in rows:
        items.append((" - ", row.sentence()))
        if row.field_check:
            items.append(("   ", "; ".join((f"before use: {row.field_check}", *row.points))))
    _list(console, items)


def notes(console: Console, title: str, texts: Sequence[str]) -> None:
    """A titled list; nothing where it is empty."""
    if texts:
        say(console, Text(title, style="bold"))
        _list(console, [(" - ", text) for text in texts])


def _list(console: Console, items: Iterable[tuple[str, str]]) -> None:
    """Entries with their marks, each wrapped under its own beginning."""
    width, shown = console.width, []
    for mark, text in items:
        lines = Text(text).wrap(console, max(1, width - len(mark)), overflow="fold")
        shown += [f"{' ' * len(mark) if at else mark}{line.plain}" for at, line in enumerate(lines)]
    console.print(Text("\n".join(shown)), soft_wrap=True)
