"""How far a trainee's reading may lie from the reference reading.

By default the two agree where they differ by no more than the root of the sum of the squares of their expanded
uncertainties: the criterion by which laboratories are compared (ISO 13528 and ISO/IEC 17043 call the quotient En, from
memory). The uncertainties are those of the instruments named, or of the one suggested.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.instruments.amounts import magnitude
from sizewright.instruments.demand import USUAL, Wish
from sizewright.instruments.model import Instrument
from sizewright.instruments.uncertainty import budget_of, two_figures_up
from sizewright.judge.values import ReadingError, read_value
from sizewright.resolve.units import OTHER_UNIT
from sizewright.text.errors import InputError
from sizewright.text.numbers import Number
from sizewright.training.answers import Exercise
from sizewright.training.naming import named
from sizewright.training.skills import suggested

_FACTOR = re.compile(r"(\d+(?:[.,]\d+)?)?\s*[x×*]?\s*U", re.ASCII)
_SHARE = re.compile(r"(\d+(?:[.,]\d+)?)\s*%(?: ?of(?: the)? tolerance)?", re.ASCII)
_TENTH = Decimal("0.1")
_HOW = (
    "an allowance is a length or angle (0.02, 0.001 in, 10'), a number of uncertainties (1.5 U) or a share of the "
    "tolerance (10 %)"
)


class Allowed(NamedTuple):
    """What is allowed, in the unit of the line, and where it comes from."""

    amount: Number
    words: str


class Allowance(NamedTuple):
    """The rule. Either a `fixed` amount as typed, a `share` of the tolerance, or `factor` times the uncertainty.

    `wish` tells where the shop measures, which the uncertainty depends on: that of the plan.
    """

    factor: Decimal = Decimal(1)
    share: Decimal | None = None
    fixed: str = ""
    wish: Wish = USUAL

    @property
    def words(self) -> str:
        """The rule in one sentence."""
        if self.fixed:
            return f"A reading is right within {self.fixed} of the reference; of an unlike unit, within U."
        if self.share is not None:
            return f"A reading is right within {self.share.normalize() * 100:f} % of the tolerance from the reference."
        times = "" if self.factor == 1 else f"{self.factor.normalize():f} times "
        return (
            f"A reading is right within {times}the root of the sum of the squares of the expanded uncertainties of "
            "both readings (the instruments named, else the one suggested)."
        )

    def for_line(self, exercise: Exercise, reference: str, own: str) -> Allowed:
        """What a reading of the line may differ from the reference, with the instruments' names as typed."""
        if self.fixed:
            try:
                value = read_value(self.fixed, exercise.made.unit).value
            except ReadingError:
                value = None  # a length says nothing of an angle or a roughness
            if value is not None:
                return Allowed(magnitude(value), "stated")
        if self.share is not None and (width := _width(exercise)):
            return Allowed(Fraction(width) * Fraction(self.share), "share of the tolerance")
        both = [self._uncertainty(exercise, name) for name in (reference, own)]
        if all(each is not None for each in both):
            root = sum((each * each for each in both if each is not None), Decimal(0)).sqrt()
            return Allowed(two_figures_up(root * self.factor), "from the uncertainty of both")
        if width := _width(exercise):
            return Allowed(Fraction(width) * Fraction(_TENTH), "a tenth of the tolerance, as no uncertainty is known")
        return Allowed(exercise.resolution or Decimal(0), "the resolution asked, as no uncertainty is known")

    def _uncertainty(self, exercise: Exercise, name: str) -> Decimal | None:
        tool = _tool(exercise, name)
        if tool is None:
            return None
        found = budget_of(tool, exercise.made, self.wish._replace(pieces=exercise.line.pieces))
        return None if found is None else found.unrounded


USUAL_ALLOWANCE = Allowance()


def read_allowance(text: str | None) -> Allowance:
    """The rule that `text` states; the usual one where there is none.

    Raises:
        InputError: it does not read.
    """
    if text is None:
        return Allowance()
    typed = " ".join(text.split())
    if found := _FACTOR.fullmatch(typed):
        return Allowance(factor=_number(found[1] or "1"))
    if found := _SHARE.fullmatch(typed):
        return Allowance(share=_number(found[1]) / 100)
    for unit in ("mm", "deg", *OTHER_UNIT):
        try:
            value = read_value(typed, unit).value
        except ReadingError:
            continue
        if value is not None and value >= 0:
            return Allowance(fixed=typed)
    raise InputError(f"{text!r} does not read; {_HOW}")


def _number(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))


def _tool(exercise: Exercise, name: str) -> Instrument | None:
    """The suitable instrument that goes by the name; the one suggested where none does."""
    if name:
        found = named(name, [one.instrument for one in exercise.suitable])
        if found.instruments:
            return found.instruments[0]
    tools = suggested(exercise.line)
    return tools[0] if tools else None


def _width(exercise: Exercise) -> Number | None:
    widths = [width for asked in exercise.asked if (width := asked.true.width) is not None]
    return min(widths) if widths else None
