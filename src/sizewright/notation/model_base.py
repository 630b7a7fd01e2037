"""What every part of the syntax model is made of: where it stands, how often it occurs, and what makes two equal."""

from typing import Any, NamedTuple, TypeVar

Span = tuple[int, int]
NOWHERE: Span = (0, 0)

_Made = TypeVar("_Made", bound=type[tuple[Any, ...]])


def by_meaning(made: _Made) -> _Made:
    """A class of which two are equal where they say the same, wherever they stand.

    Its fields from `span` on tell where it was typed; they take no part in equality. A named tuple alone would be equal
    to one of another class with the same fields: limits to deviations.
    """
    names: tuple[str, ...] = made._fields  # type: ignore[attr-defined]
    meant = names.index("span") if "span" in names else len(names)

    def same(one: tuple[Any, ...], other: object) -> bool:
        return type(other) is made and one[:meant] == other[:meant]

    def different(one: tuple[Any, ...], other: object) -> bool:
        return not same(one, other)

    def hashed(one: tuple[Any, ...]) -> int:
        return hash((made, one[:meant]))

    for name, method in (("__eq__", same), ("__ne__", different), ("__hash__", hashed)):
        setattr(made, name, method)
    return made


@by_meaning
class Repeat(NamedTuple):
    """How often a feature occurs: `count` None with `typical` says that the text does not tell."""

    count: int | None = 1  # type: ignore[assignment]  # of a tuple's own count nobody asks
    typical: bool = False
    holes: bool = False  # the count was typed of holes


ONCE = Repeat()
