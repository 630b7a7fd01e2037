"""The errors of the package.

SizewrightError          everything a user's input can cause
  CalloutError           a callout that does not read: message, column, length, hint
  InputError             a file, option or table that cannot be used
    OutputError          a file that could not be written
"""

from __future__ import annotations


class SizewrightError(Exception):
    """Something the user gave cannot be used; the text is one clear sentence."""


class InputError(SizewrightError):
    """A file, an option or a table that cannot be used."""


class OutputError(InputError):
    """A file that could not be written; what stood there before is untouched."""


class CalloutError(SizewrightError):
    """A callout that does not read.

    `column` is 1-based and counts characters of the text as typed, `length` is how many characters are at fault
    (0 where something is missing), `hint` says what would read, or is empty.
    """

    def __init__(self, message: str, start: int, end: int, hint: str = "") -> None:
        """`start` and `end` are 0-based offsets into the text as typed."""
        super().__init__(message)
        self.message = message
        self.column = start + 1
        self.length = max(0, end - start)
        self.hint = hint


def with_article(name: str) -> str:
    """`name` with its indefinite article, for a message: `an angle`."""
    return f"{'an' if name[:1] in ('a', 'e', 'i', 'o') else 'a'} {name}"
