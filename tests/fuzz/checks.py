"""What must hold of every answer, whatever was typed."""

from __future__ import annotations

import json
import time
import unicodedata
from collections.abc import Callable

MOST_SECONDS = 2.0
_JOINERS = "\u200c\u200d"


class BrokenRuleError(AssertionError):
    """A rule that every answer keeps was broken; the text says which."""


def expect(holds: object, rule: str) -> None:
    """Raise where a rule does not hold."""
    if not holds:
        raise BrokenRuleError(rule)


def clean(text: str, what: str) -> None:
    """`text` may be shown: nothing in it acts on a terminal, a line break aside."""
    if text.isprintable():
        return
    for char in text:
        acts = unicodedata.category(char) in ("Cc", "Cf", "Cs", "Zl", "Zp") and char != "\n" and char not in _JOINERS
        expect(not acts, f"{what} holds a character that acts")


def clean_json(text: str) -> object:
    """`text` is one line of JSON in which nothing acts; what it says."""
    line = text.removesuffix("\n")
    expect("\n" not in line, "JSON on more than one line")
    clean(line, "JSON")
    return json.loads(line)


def in_time(check: Callable[[bytes], None], data: bytes) -> None:
    """Run a check; its processor time is bounded."""
    begun = time.process_time()
    check(data)
    expect(time.process_time() - begun < MOST_SECONDS, f"more than {MOST_SECONDS} seconds for one input")
