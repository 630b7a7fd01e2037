"""The grammar files, and the parser made of them.

The grammars ship inside the package; in a checkout they lie in the folder `grammar` at its root.
"""

from __future__ import annotations

import os
from functools import cache

from sizewright.notation.parser import Parser
from sizewright.notation.table import kept_table
from sizewright.text.errors import InputError

PLAIN_FILES = ("sizes", "callout", "fits", "general", "terminals")
CALLOUT_FILES = ("callout", "sizes", "fits", "threads", "holes", "surfaces", "general", "geometry_mark", "terminals")
CALLOUT_STARTS = ("callout", "general")


# Paths are plain text here: pathlib would be a twentieth of the time that a single callout takes.


@cache
def grammar_folder() -> str:
    """The folder that holds the `.lark` files."""
    package = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
    installed = os.path.join(package, "grammar")
    return installed if os.path.isdir(installed) else os.path.join(package, "..", "..", "grammar")


def grammar_text(files: tuple[str, ...]) -> str:
    """The named grammar files, one after another.

    Raises:
        InputError: they are not where the package was installed.
    """
    texts = []
    for name in files:
        try:
            with open(os.path.join(grammar_folder(), f"{name}.lark"), encoding="utf-8") as file:
                texts.append(file.read())
        except OSError as error:
            raise InputError(f"the grammar files are missing from the installation: {error.filename}") from error
    return "\n".join(texts)


def make_parser(files: tuple[str, ...], starts: tuple[str, ...], builder: object) -> Parser:
    """A parser over `files`; `builder` makes of each rule what its method of that name makes of the rule's children.

    Its table is kept under the name of the first file.
    """
    return Parser(kept_table(files[0], grammar_text(files), starts), builder)
