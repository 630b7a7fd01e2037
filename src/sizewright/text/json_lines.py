"""JSON on one line, with nothing in it that acts on a terminal."""

from __future__ import annotations

import json
import unicodedata

_encode = json.JSONEncoder(ensure_ascii=False).encode
_ACTING = ("Cc", "Cf", "Cs", "Zl", "Zp")


def dumped(value: object) -> str:
    """`value` on one line; typed text is kept exactly, a character that could act stands as its JSON escape."""
    text = _encode(value)
    return text if text.isprintable() else "".join(map(_escaped, text))


def _escaped(char: str) -> str:
    return json.dumps(char)[1:-1] if unicodedata.category(char) in _ACTING else char
