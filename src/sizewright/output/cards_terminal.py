"""Instrument cards on the terminal and as plain text: everything but the pictures, whose readings are told in words."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from sizewright.output.card_rows import CAUTIONS, Rows, budget_rows, field_check_sentence, item_rows, sentence
from sizewright.output.card_scales import pictures_of
from sizewright.output.safe import one_line, visible
from sizewright.training import card_words as words
from sizewright.training.cards import Card

_WIDTH = 100
_LEAST = 60
_APART = "  "


def print_cards(cards: Sequence[Card]) -> None:
    """Print the cards on standard output, as wide as the terminal and 120 at most."""
    from shutil import get_terminal_size

    width = max(_LEAST, min(get_terminal_size((80, 24)).columns, 120))
    print(cards_text(cards, width), end="")


def cards_text(cards: Sequence[Card], width: int = _WIDTH) -> str:
    """The cards as plain text, `width` characters wide; a table that needs more is written line by line."""
    return "\n".join("".join(f"{line}\n" for line in _card(card, width)) for card in cards)


def _card(card: Card, width: int) -> Iterator[str]:
    yield card.kind.name.upper()
    yield from _wrapped(f"{sentence(words.measures(card))}. {words.manner(card)}", width)
    yield from _listed("reaches", card.access, width)
    yield from _listed("error", words.error_sentences(card), width)
    yield from _listed("check before use", [field_check_sentence(card)], width)
    yield from _listed("use", card.steps, width, numbered=True)
    yield from _listed("mistakes", [f"{each.mistake}: {each.instead}".rstrip(": ") for each in card.mistakes], width)
    for picture in pictures_of(card):
        yield from _listed("works" if not picture.lines[1:] else "reads, for example", picture.lines, width)
    yield "  in the crib"
    yield from _table(item_rows(card), width)
    yield from _listed("uncertainty to expect", _uncertainty(card), width)
    if card.example is not None:
        yield from _table(budget_rows(card), width)
    yield from _listed("cautions", (*card.cautions, *CAUTIONS), width)


def _uncertainty(card: Card) -> Sequence[str]:
    title = words.example_title(card)
    return (*([f"example: {title}"] if title else []), *words.example_sentences(card))


def _listed(title: str, texts: Sequence[str], width: int, numbered: bool = False) -> Iterator[str]:
    yield f"  {title}"
    for number, text in enumerate(texts, start=1):
        mark = f"{number}." if numbered else "-"
        yield from _wrapped(one_line(text), width, f"    {mark} ", " " * (5 + len(mark)))


def _wrapped(text: str, width: int, first: str = "  ", rest: str = "  ") -> list[str]:
    return textwrap.wrap(text, width, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)


def _table(made: Rows, width: int) -> Iterator[str]:
    """Columns where they fit, else each row with its heads, so that no figure is cut or broken."""
    head, rows, _ = made
    cells = [[" / ".join(visible(text).split("\n")) for text in row] for row in rows]
    kept = [i for i, _ in enumerate(head) if any(row[i] not in ("", "–") for row in cells)]
    wide = {i: max(len(head[i]), *(len(row[i]) for row in cells)) for i in kept}
    if 4 + sum(wide.values()) + len(_APART) * len(kept) <= width:
        for row in (head, *cells):
            yield "    " + _APART.join(f"{row[i]:<{wide[i]}}" for i in kept).rstrip()
        return
    first, *others = kept
    for row in cells:
        facts = "; ".join(f"{head[i]} {row[i]}" for i in others if row[i])
        yield from _wrapped(f"{row[first]}: {facts}", width, "    - ", "      ")
