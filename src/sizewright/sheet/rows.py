"""A table's rows and cells, whatever file they come from."""

from typing import NamedTuple

from sizewright.sheet.drafts import Row

COLUMNS = ("balloon", "zone", "view", "class", "callout", "remark")


class Cell(NamedTuple):
    """A cell's text (lines parted by `\\n`) and the file's line on which it begins.

    `tall` tells whether its lines are lines of the file too; `loose` whether it is a number whose last zeros may be
    lost; `problem` says why its text cannot be trusted, `hint` what to do about it.
    """

    text: str
    line: int
    tall: bool = False
    loose: bool = False
    problem: str = ""
    hint: str = ""

    @property
    def filled(self) -> bool:
        """Whether anything stands in it."""
        return bool(self.problem or self.text.strip())

    @property
    def flat(self) -> str:
        """Its text on one line, each character at its place."""
        return self.text.replace("\n", " ")

    def rows(self) -> list[Row]:
        """Its lines that are not blank."""
        lines = enumerate(self.text.split("\n"))
        return [Row(self.line + (index if self.tall else 0), line) for index, line in lines if line.strip()]


class TableRow(NamedTuple):
    """A row of a table and the number of the file's line on which it begins."""

    number: int
    cells: tuple[Cell, ...]

    def cell(self, index: int | None) -> Cell:
        """The cell at `index`; an empty one where the row is shorter or there is no such column."""
        return self.cells[index] if index is not None and index < len(self.cells) else Cell("", self.number)

    @property
    def filled(self) -> list[int]:
        """The indexes of the cells in which something stands."""
        return [index for index, cell in enumerate(self.cells) if cell.filled]


def heading(cell: Cell) -> str:
    """A header cell's text in lower case with single blanks."""
    return " ".join(cell.text.lower().split())


def headings(row: TableRow) -> int:
    """How many of the known columns `row` names; 0 where it is no header row."""
    names = {heading(cell) for cell in row.cells}
    return len(names.intersection(COLUMNS)) if "callout" in names else 0
