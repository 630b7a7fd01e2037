"""What a parser's refusal means to a person: where, what stands there, and what would read."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from sizewright.notation.parser import Parser, Refused
from sizewright.text.errors import CalloutError

_AT_MOST = 8


def read_whole(parser: Parser, text: str, start: str, offset: int, words: Mapping[str, str]) -> Any:
    """What `text`, which stands at `offset` in the callout, is in a language of its own.

    Raises:
        CalloutError: it does not read; `words` names the language's terminals.
    """
    try:
        return parser.parse(text, start=start)
    except Refused as error:
        raise moved(explained(error, text, words), offset) from None
    except CalloutError as error:
        raise moved(error, offset) from None


def moved(error: CalloutError, offset: int) -> CalloutError:
    """The same error, of a text that stands at `offset` in another."""
    start = error.column - 1 + offset
    return CalloutError(error.message, start, start + error.length, error.hint)


def explained(error: Refused, text: str, words: Mapping[str, str]) -> CalloutError:
    """The refusal as an error at the exact character; `words` are the trade's words for the terminals."""
    would_read, at = _would_read(error.expected, words), error.at
    if at is None:
        return CalloutError("the callout ends too early", len(text), len(text), would_read)
    found = word_at(text, at)
    shown = "a line break" if found == "\n" else f'"{found}"'
    return CalloutError(f"{shown} does not read here", at, at + len(found), would_read)


def word_at(text: str, at: int | None) -> str:
    """The word, number or character at an offset."""
    if at is None:
        return ""
    word = re.compile(r"[A-Za-z]+|\d[\d.,]*|\S|\s").match(text, at)
    return word[0] if word else text[at : at + 1]


def _would_read(expected: set[str], words: Mapping[str, str]) -> str:
    named = [words[name] for name in words if name in expected and words[name]]
    return "what would read: " + ", ".join(named[:_AT_MOST]) if named else ""
