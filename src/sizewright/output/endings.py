"""The ending of a file tells in which form it is written."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from sizewright.output.safe import one_line
from sizewright.text.errors import InputError


def known_ending(path: Path, known: Iterable[str]) -> str:
    """The ending of `path`, in lower case, if it is one of the `known` ones.

    Raises:
        InputError: it is not; the text names those that are.
    """
    ending = path.suffix.lower()
    if ending not in known:
        raise InputError(f"{one_line(path.name)}: the ending tells the form; known are {', '.join(known)}")
    return ending
