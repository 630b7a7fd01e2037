"""What a callout is read under: the title block's unit, manner and general tolerances."""

from typing import Literal, NamedTuple

from sizewright.notation.model import GeneralNote

Unit = Literal["mm", "inch"]
Manner = Literal["iso", "asme"]


class Context(NamedTuple):
    """The unit of numbers typed without one, the drawing practice, and what tolerances a size that has none.

    `edition` is that of ASME B1.1, by which Unified threads are rounded (a key of `unified.EDITIONS`).
    """

    unit: Unit = "mm"
    manner: Manner = "iso"
    general: GeneralNote | None = None
    edition: str = "2003"
