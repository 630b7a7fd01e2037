"""The smallest piece that a grammar knows: a stretch of the text with its name."""

from __future__ import annotations


class Token(str):
    """A terminal as it was found: its text, its name in the grammar, and its 0-based offsets in the text."""

    __slots__ = ("end_pos", "start_pos", "type")

    type: str
    start_pos: int
    end_pos: int

    def __new__(cls, type_: str, text: str, start: int, end: int) -> Token:
        """The stretch `text` from `start` to `end`."""
        made = str.__new__(cls, text)
        made.type = type_
        made.start_pos = start
        made.end_pos = end
        return made
