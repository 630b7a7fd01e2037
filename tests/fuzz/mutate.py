"""Inputs made of others by chance, where no tool is installed that watches which lines they reach."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence


def mutants(seeds: Sequence[bytes], tokens: Sequence[bytes], longest: int, chance: random.Random) -> Iterator[bytes]:
    """Endless inputs, each a seed with a few changes."""
    bases = list(seeds) or [b""]
    while True:
        data = bytearray(chance.choice(bases))
        for _ in range(chance.choice((1, 1, 2, 3, 6))):
            _change(data, bases, tokens, chance)
        yield bytes(data[:longest])


def _change(data: bytearray, bases: Sequence[bytes], tokens: Sequence[bytes], chance: random.Random) -> None:
    start = chance.randint(0, len(data))
    end = min(len(data), start + chance.choice((0, 1, 2, 4, 16)))
    match chance.randrange(7):
        case 0:
            del data[start:end]
        case 1:
            data[start:end] = chance.choice(tokens)
        case 2:
            data[start:start] = chance.choice(tokens)
        case 3:
            data[start:end] = bytes(chance.randrange(256) for _ in range(end - start + 1))
        case 4:
            data[start:start] = data[start:end] * chance.choice((1, 2, 50))
        case 5:
            other = chance.choice(bases)
            data[start:] = other[chance.randint(0, len(other)) :]
        case _:
            if data:
                at = min(start, len(data) - 1)
                data[at] ^= 1 << chance.randrange(8)
