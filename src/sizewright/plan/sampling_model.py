"""How many pieces a plan checks: one sample for each class of characteristic. Data only."""

from typing import NamedTuple

from sizewright.standards.sampling import SinglePlan


class ClassSample(NamedTuple):
    """The sample on which the lines of one class are checked.

    `of` names them (`critical`, `all lines`), `lines` are the numbers of those that ask for readings, `words` say
    where the number of `pieces` comes from. `plan` decides on the lot; None where every piece is checked and judged by
    itself.
    """

    of: str
    lines: tuple[str, ...]
    pieces: int
    words: str
    plan: SinglePlan | None = None


class Sampling(NamedTuple):
    """The sampling of a plan. `lot` is its number of pieces where that is told. Without `classes` the plan checks its
    pieces as typed. `notes` are sentences to be read before measuring."""

    lot: int | None = None
    classes: tuple[ClassSample, ...] = ()
    notes: tuple[str, ...] = ()
