"""Words in messages: quoted, and the known ones near a mistyped one."""

from __future__ import annotations

from collections.abc import Iterable

_LONGEST = 40
_LIKENESS = 0.75
_SHORTEST = 3


def quoted(text: str) -> str:
    """`text` in quotation marks, for a message; of a long one the beginning."""
    return f'"{text}"' if len(text) <= _LONGEST else f'"{text[: _LONGEST - 1]}…"'


def near(word: str, known: Iterable[str]) -> list[str]:
    """Up to three of `known` that are spelt much like `word`, or shorten or lengthen it; the nearest first."""
    import difflib

    typed, words = word.lower(), list(known)
    found = difflib.get_close_matches(typed, words, 3, _LIKENESS)
    if len(typed) >= _SHORTEST:
        found += [each for each in words if each not in found and (each.startswith(typed) or typed.startswith(each))]
    return found[:3]


def did_you_mean(words: list[str]) -> str:
    """The question to ask about `words`; empty where there are none."""
    return f"did you mean {either(words)}?" if words else ""


def either(words: Iterable[str]) -> str:
    """`words` in quotation marks with "or" before the last."""
    marked = [quoted(word) for word in words]
    return " or ".join([", ".join(marked[:-1]), marked[-1]] if len(marked) > 1 else marked)
