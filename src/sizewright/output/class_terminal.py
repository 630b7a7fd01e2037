"""A class table on the terminal."""

from __future__ import annotations

from rich import box
from rich.console import Console
from rich.table import Table
from rich.text import Text

from sizewright.output import class_texts as texts
from sizewright.training.class_marks import ClassMarks

_WIDE = 110  # columns that a class with a column a question needs
_SHORT = {
    "lower limit": "lower", "upper limit": "upper", "instrument": "instr.", "resolution": "resol.",
    "reading": "reading", "verdict": "verdict", "reason": "reason",
}  # fmt: skip


def print_class(marks: ClassMarks) -> None:
    """Print the class table, where the class went wrong, and every point lost."""
    console = Console(highlight=False, soft_wrap=False)
    console.print(Text(texts.title(marks)), style="bold")
    for each in texts.remarks(marks):
        console.print(Text(each))
    whole, *others = texts.tables(marks)
    for table in (whole if console.width >= _WIDE else texts.narrow_class_table(marks), *others):
        if table.rows:
            console.print()
            console.print(_drawn(table))


def _drawn(table: texts.Table) -> Table:
    drawn = Table(title=table.name, title_justify="left", box=box.SIMPLE_HEAD, pad_edge=False, padding=(0, 1))
    for head, number in table.heads:
        shown = _SHORT.get(head, head) if table.name == "class" else head
        drawn.add_column(Text(shown), justify="right" if number else "left", overflow="fold", no_wrap=number)
    for row in table.rows:
        drawn.add_row(*(Text(text) for text in row))
    return drawn
