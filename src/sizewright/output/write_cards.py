"""Write instrument cards to a file, in the form that the file's ending names."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from sizewright.output.atomic import write_whole
from sizewright.output.endings import known_ending
from sizewright.training.cards import Card


def _docx(cards: Sequence[Card], paper: str) -> bytes:
    from sizewright.output.docx_cards import cards_docx

    return cards_docx(cards, paper)


def _txt(cards: Sequence[Card], _: str) -> bytes:
    from sizewright.output.cards_terminal import cards_text

    return cards_text(cards).encode()


def _jsonl(cards: Sequence[Card], _: str) -> bytes:
    from sizewright.output.cards_jsonl import cards_jsonl

    return cards_jsonl(cards)


_FORMS: dict[str, Callable[[Sequence[Card], str], bytes]] = {".docx": _docx, ".txt": _txt, ".jsonl": _jsonl}


def check_ending(path: Path) -> None:
    """Refuse a file whose ending tells no form, before any work is done for it.

    Raises:
        InputError: the ending is unknown.
    """
    known_ending(path, _FORMS)


def write_cards(cards: Sequence[Card], path: Path, paper: str = "A4") -> None:
    """Write `cards` to `path`, whole or not at all; `paper` (A4 or Letter) is for DOCX.

    Raises:
        InputError: the ending or the paper is unknown.
        OutputError: the file cannot be written; what stood there is untouched.
    """
    check_ending(path)
    write_whole(path, _FORMS[path.suffix.lower()](cards, paper))
