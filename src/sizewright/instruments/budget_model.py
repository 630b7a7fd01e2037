"""An uncertainty budget as data: its terms, and what they come to. In the unit of the characteristic."""

from decimal import Decimal
from typing import Literal, NamedTuple

Shape = Literal["rectangular", "triangular", "arcsine", "normal"]


class Term(NamedTuple):
    """One source of uncertainty.

    `stated` is the half-width of a rectangle, triangle or arcsine, or the standard deviation of a normal, in
    `stated_unit` (a unit of length, `K` for a temperature, `/K` for an expansion); `standard` is the standard
    uncertainty in that unit; `contribution` is `standard` times the sensitivity, in the budget's unit; `dof` is None
    where it is taken as known exactly; `source` says where the figure comes from.
    """

    name: str
    stated: Decimal
    stated_unit: str
    shape: Shape
    standard: Decimal
    sensitivity: Decimal
    contribution: Decimal
    dof: Decimal | None
    source: str


class Budget(NamedTuple):
    """The terms of a measurement and their sum (JCGM 100, clauses 5.1.2, 6.2 and G.4.1).

    `combined` is the combined standard uncertainty, `dof` the effective degrees of freedom cut down to a whole number
    (None: beyond counting), `factor` the coverage factor for 95 %, `bias` a known error that nobody corrects, which is
    added in full, `unrounded` the expanded uncertainty, factor times combined plus bias, and `expanded` the same as
    it is reported, rounded up to two figures. `remarks` tell what was taken for granted.
    All but `factor` and `dof` are in `unit` (mm, inch, um, uin, deg).
    """

    unit: str
    of: str
    instrument: str
    terms: tuple[Term, ...]
    combined: Decimal
    dof: int | None
    factor: Decimal
    bias: Decimal
    unrounded: Decimal
    expanded: Decimal
    remarks: tuple[str, ...] = ()
