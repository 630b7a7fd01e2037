"""A table of texts, as every form of a report shows it."""

from __future__ import annotations

from itertools import compress
from typing import NamedTuple


class Field(NamedTuple):
    """One column of a table: its head, its share of the width, and whether numbers stand in it."""

    head: str
    share: float
    number: bool = False


class Grid(NamedTuple):
    """A table of texts; `about` says what it is to people who cannot see it."""

    about: str
    fields: tuple[Field, ...]
    rows: list[tuple[str, ...]]

    def trimmed(self) -> Grid:
        """The same without the columns in which nothing stands."""
        used = [any(column) for column in zip(*self.rows, strict=True)] or [True] * len(self.fields)
        if all(used):
            return self
        rows = [tuple(compress(row, used)) for row in self.rows]
        return Grid(self.about, tuple(compress(self.fields, used)), rows)
