"""What a callout asks for once it is resolved: characteristics with exact limits, and the reasons."""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType
from typing import Literal, NamedTuple

from sizewright.text.errors import CalloutError
from sizewright.text.numbers import Number

Side = Literal["internal", "external"]


class Status(StrEnum):
    """Whether a characteristic has limits, and if not, why not."""

    TOLERANCED = "toleranced"
    REFERENCE = "reference"
    BASIC = "basic"
    UNTOLERANCED = "untoleranced"
    CONFLICT = "conflict"
    UNREAD = "unread"


class Limits(NamedTuple):
    """The bounds of one thing, in the characteristic's unit; a missing bound is None. Both bounds are inside."""

    of: str
    lower: Number | None
    upper: Number | None

    def holds(self, value: Number) -> bool:
        """Whether `value` complies: a limit is absolute, as if followed by endless zeros."""
        return (self.lower is None or value >= self.lower) and (self.upper is None or value <= self.upper)

    @property
    def width(self) -> Number | None:
        """Upper limit minus lower limit, or None where one is missing."""
        if self.lower is None or self.upper is None:
            return None
        return self.upper - self.lower  # type: ignore[operator]


class Fit(NamedTuple):
    """How a hole and a shaft go together; an interference is a negative clearance. In the unit of the sizes."""

    type: Literal["clearance", "transition", "interference"]
    clearance_max: Number
    clearance_min: Number


class Either(NamedTuple):
    """Limits of both sides where nothing tells which one is meant."""

    internal: tuple[Limits, ...]
    external: tuple[Limits, ...]


class Characteristic(NamedTuple):
    """One thing to be measured. Lengths are in `unit` (mm, inch), angles in degrees (`deg`), as exact numbers.

    `count` is None where the text does not tell it. `extra` holds the optional keys of the JSON answer that only some
    families have (`thread`, `datums`, `zone_shape`, `modifiers`, `parameter`), ready as plain values.
    """

    kind: str
    unit: str
    status: Status
    nominal: Number | None = None
    limits: tuple[Limits, ...] = ()
    side: Side | None = None
    count: int | None = 1  # type: ignore[assignment]  # of a tuple's own count nobody asks
    why: tuple[str, ...] = ()
    class_: str | None = None
    fit: Fit | None = None
    either: Either | None = None
    extra: Mapping[str, object] = MappingProxyType({})

    @property
    def size(self) -> Limits | None:
        """The limits where there is one pair of them (everything but threads)."""
        return self.limits[0] if len(self.limits) == 1 else None


class Remark(NamedTuple):
    """Something the user should know; `column` is 1-based in the callout as typed, or None."""

    level: Literal["info", "warning"]
    text: str
    column: int | None = None


class Answer(NamedTuple):
    """What one callout comes to. With an `error` there are no characteristics: nothing is half read."""

    callout: str
    characteristics: tuple[Characteristic, ...] = ()
    remarks: tuple[Remark, ...] = ()
    error: CalloutError | None = None
