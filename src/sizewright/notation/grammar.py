"""The grammar files, and the parser made of them.

The grammars ship inside the package; in a checkout they lie in the folder `grammar` at its root. The parse table is
kept in a named file in the user's own cache folder, never in a shared temporary one; where that folder cannot be
written the table is made anew each time.
"""

from __future__ import annotations

import os
import re
import sys
from functools import cache

from lark import Lark, LarkError, logger

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


def cache_folder() -> str:
    """The user's own cache folder for this package; it may not exist."""
    if sys.platform == "win32":
        root = os.environ.get("LOCALAPPDATA") or "~/AppData/Local"
    elif sys.platform == "darwin":
        root = "~/Library/Caches"
    else:
        root = os.environ.get("XDG_CACHE_HOME") or "~/.cache"
    return os.path.join(os.path.expanduser(root), "sizewright")


def make_parser(files: tuple[str, ...], starts: tuple[str, ...], transformer: object) -> Lark:
    """A LALR parser with the contextual lexer over `files`; `transformer` is applied while it reads.

    Its table is kept under the name of the first file.
    """
    return Lark(
        grammar_text(files),
        parser="lalr",
        start=list(starts),
        transformer=transformer,
        maybe_placeholders=False,
        g_regex_flags=re.ASCII,  # only the ten figures are figures; the expressions compile in half the time
        cache=_table_file(files[0]),
    )


def _table_file(name: str) -> str | bool:
    logger.disabled = True  # a damaged table is made anew; nobody needs to hear of it
    folder = cache_folder()
    try:
        os.makedirs(folder, mode=0o700, exist_ok=True)
        if sys.platform != "win32" and os.stat(folder).st_uid != os.geteuid():
            return False
    except OSError:
        return False
    return os.path.join(folder, f"{name}-{sys.version_info.major}.{sys.version_info.minor}.table")


__all__ = ["CALLOUT_FILES", "CALLOUT_STARTS", "PLAIN_FILES", "LarkError", "cache_folder", "grammar_text", "make_parser"]
