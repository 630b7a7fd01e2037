"""Texts to measure with: many different callouts of all families, and a sheet of sixty lines."""

from __future__ import annotations

import csv
import random
import re
from collections.abc import Iterator
from pathlib import Path

from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context

ROOT = Path(__file__).resolve().parents[2]
CORPUS = ROOT / "tests" / "data" / "callouts.csv"
SHEETS = [ROOT / "samples" / f"{name}.sheet" for name in ("worm-housing", "bearing-cap", "polar-axis", "camera-plate")]
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
_HEAD = re.compile(r"\d+[^:]*: +")
_TRIES = 8


def forms() -> dict[str, list[str]]:
    """The callouts of the test corpus that stand on one line, by family."""
    found: dict[str, list[str]] = {}
    with CORPUS.open(encoding="utf-8", newline="") as lines:
        for row in csv.DictReader(line for line in lines if not line.startswith("#")):
            if "\n" not in row["callout"]:
                found.setdefault(row["family"], []).append(row["callout"])
    return found


def distinct(count: int) -> list[str]:
    """`count` different callouts: forms of every family in turn, with other numbers; the same ones each time."""
    chance, made = random.Random(2768), dict[str, None]()
    families = [_endless(of_one, chance) for of_one in forms().values()]
    while len(made) < count:
        for family in families:
            made[_another(family, chance, made)] = None
    return list(made)[:count]


_SIZES = ("{} ±0.1", "Ø{} H7", "{} +0.2/-0.1", "Ø{} h6", "R{}", "{} MAX", "2x Ø{} ±0.05", "({})")


def sizes(count: int) -> list[str]:
    """`count` different callouts of the plainest forms, as most of a drawing has them."""
    return [_SIZES[i % len(_SIZES)].format(f"{1 + i // 100}.{i % 100:02}") for i in range(count)]


def _endless(texts: list[str], chance: random.Random) -> Iterator[str]:
    while True:
        yield chance.choice(texts)


def _another(family: Iterator[str], chance: random.Random, made: dict[str, None]) -> str:
    """A callout of a family that is not among those made; after many tries, one told apart by a size after it."""
    for _ in range(_TRIES):
        text = _NUMBER.sub(lambda found: _near(found[0], chance), next(family))
        if text not in made and answer(text, Context()).error is None:
            return text
    return f"{text}; {chance.randrange(10_000_000) / 1000} ±0.1"


def _near(number: str, chance: random.Random) -> str:
    """A number of the same form, or the same one: what follows from a class or a pitch must remain one."""
    if chance.random() < 0.5:
        return number
    last = "".join(chance.choice("0123456789") for _ in range(2))
    return f"{number}{last}" if "." in number or "," in number else f"{number[:-1]}{chance.choice('123456789')}"


def sixty_lines() -> str:
    """A sheet of sixty lines: a sample with its title block, and callouts of others."""
    first, *others = (sheet.read_text("utf-8").splitlines() for sheet in SHEETS)
    for lines in others:
        start = next(at for at, line in enumerate(lines) if line.startswith("view:"))
        first += [_HEAD.sub("", line) for line in lines[start:] if line and not line.startswith("view:")]
    return "\n".join(first[:60]) + "\n"
