"""What the grammar yields before it is put together: sizes with their loose tails, in the order typed."""

from dataclasses import dataclass, field
from typing import Any, NamedTuple

from sizewright.notation.model import Amount, Feature, Span, Thread


class Mark(NamedTuple):
    """A mark at a size: its name in the grammar, and where it stands."""

    name: str
    span: Span


@dataclass(slots=True, eq=False, repr=False)
class Tail:
    """One thing typed after a size: its rule's name, its value, where it stands."""

    name: str
    value: Any
    span: Span


@dataclass(slots=True, eq=False, repr=False)
class RawSize:
    """A size as the grammar sees it, before its marks and tails are weighed against each other."""

    amount: Amount | None
    marks: list[Mark] = field(default_factory=list)
    tails: list[Tail] = field(default_factory=list)
    standing: str = "plain"
    inner: "RawSize | None" = None
    span: Span = (0, 0)

    def has_mark(self, name: str) -> bool:
        """Whether a mark of this name (`DEPTH`) stands before the number or after it."""
        after = [tail.value[0] for tail in self.tails if tail.name == "mark_after"]
        return any(mark == name for mark, _ in self.marks) or f"{name}_AFTER" in after


@dataclass(slots=True, eq=False, repr=False)
class RawThread:
    """A thread's designation, and what follows it in the order typed. `drill` is where DRILL stands in front of TAP."""

    thread: Thread
    tails: list[Tail] = field(default_factory=list)
    span: Span = (0, 0)
    drill: Span | None = None


@dataclass(slots=True, eq=False, repr=False)
class RawReady:
    """Features that a language of their own has read whole (a geometric frame, a texture), with where they stand.

    `places` and `typical` are what stands last in their text about how often they occur.
    """

    features: tuple[Feature, ...]
    span: Span = (0, 0)
    places: Tail | None = None
    typical: bool = False


@dataclass(slots=True, eq=False, repr=False)
class Piece:
    """A size, a thread or ready features, with what stands before them."""

    body: RawSize | RawThread | RawReady | Feature
    separator: str | None = None
    count: Tail | None = None
