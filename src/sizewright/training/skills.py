"""What a line of a plan exercises: families of requirements, where the limits come from, how hard it is.

All of it follows from stated rules, so that a trainer can tell why a line was picked.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, NamedTuple

from sizewright.instruments.amounts import to_base
from sizewright.instruments.features import ANGLE_FEATURES, FORM_FEATURES, needs
from sizewright.instruments.model import Instrument
from sizewright.plan.model import PlanLine
from sizewright.resolve.characteristic import Characteristic, Status

Difficulty = Literal["easy", "medium", "hard"]
Source = Literal["typed", "single", "class", "thread", "zone", "texture", "general", "none"]
DIFFICULTIES: tuple[Difficulty, ...] = ("easy", "medium", "hard")
DIFFICULTY_RULE = (
    "A line gets one mark for each of these: its limits stand in a table or in the general tolerances and not in the "
    "callout; it has several limits, a datum or a side that is not told; it is not read directly (transfer, wires, "
    "gauge without a value, indicator); the resolution asked for is finer than 0.005 mm or 6 minutes. No mark is easy, "
    "one or two are medium, more are hard."
)

_FINE_LENGTH, _FINE_ANGLE = Decimal("0.005"), Decimal("0.1")
_FAMILY_OF_KIND = {
    "thread": "threads",
    "thread depth": "threads",
    "thread length": "threads",
    "surface texture": "texture",
    "taper": "tapers",
    "slope": "tapers",
    "radius": "radii",
    "controlled radius": "radii",
    "spherical radius": "radii",
    "chamfer size": "edges",
    "edge": "edges",
    "edge break": "edges",
    "angle": "angles",
    "chamfer angle": "angles",
    "countersink angle": "angles",
    "counterdrill angle": "angles",
}
FAMILIES = (
    "plain sizes", "fits", "threads", "angles", "tapers", "geometric", "texture", "holes", "depths",
    "grooves and slots", "radii", "edges",
)  # fmt: skip
SOURCES = {
    "general tolerances": "general",
    "single limits": "single",
    "without limits": "none",
}


class Skill(NamedTuple):
    """What a line exercises. `kinds` are the kinds of instrument suggested for it, `marks` the reasons that count for
    its difficulty."""

    family: str
    source: Source
    kinds: tuple[str, ...]
    marks: tuple[str, ...]

    @property
    def difficulty(self) -> Difficulty:
        """Easy without a mark, medium with one or two, hard with more."""
        return "easy" if not self.marks else "medium" if len(self.marks) <= 2 else "hard"

    @property
    def words(self) -> tuple[str, ...]:
        """The families by which the line can be picked: its own, and one for where its limits come from."""
        return (self.family, *(word for word, source in SOURCES.items() if source == self.source))


def skill_of(line: PlanLine) -> Skill:
    """What `line` exercises; it must have been read."""
    made = line.characteristic
    assert made is not None
    source = _source(made)
    tools = suggested(line)
    return Skill(_family(made), source, tuple(dict.fromkeys(tool.kind.name for tool in tools)), _marks(line, source))


def suggested(line: PlanLine) -> tuple[Instrument, ...]:
    """The instruments suggested for a line: one, or one for each side that may be meant."""
    choice = line.choice
    if choice is None or choice.instrument is None:
        return ()
    return tuple(tool for _, tool in choice.by_side) or (choice.instrument,)


def _family(made: Characteristic) -> str:
    if made.kind in FORM_FEATURES:
        return "geometric"
    if made.kind in _FAMILY_OF_KIND:
        return _FAMILY_OF_KIND[made.kind]
    if made.class_ is not None:
        return "fits"
    if "depth" in made.kind:
        return "depths"
    if made.kind.startswith(("slot", "groove", "keyway")):
        return "grooves and slots"
    if made.side == "internal" and "diameter" in made.kind:
        return "holes"
    return "plain sizes"


def _source(made: Characteristic) -> Source:
    """Where the limits come from; the reasons of a characteristic say which general tolerance was taken."""
    if made.status is not Status.TOLERANCED:
        return "none"
    if made.kind == "thread":
        return "thread"
    if made.kind in FORM_FEATURES:
        return "zone"
    if made.kind == "surface texture":
        return "texture"
    if made.class_ is not None:
        return "class"
    if any(why.startswith(("ISO 2768", "general tolerance")) for why in made.why):
        return "general"
    pair = made.size
    return "single" if pair is not None and (pair.lower is None or pair.upper is None) else "typed"


def _marks(line: PlanLine, source: Source) -> tuple[str, ...]:
    made = line.characteristic
    assert made is not None
    found = {
        "limits from a table": source in ("class", "thread", "general"),
        "several limits, a datum or no side": len(made.limits) > 1 or bool(made.extra.get("datums")) or _untold(made),
        "not read directly": any(not tool.kind.direct or tool.kind.attribute for tool in suggested(line))
        or made.kind in FORM_FEATURES,
        "fine resolution": _fine(line),
    }
    return tuple(word for word, counts in found.items() if counts)


def _untold(made: Characteristic) -> bool:
    return made.either is not None or (made.side is None and len(needs(made).features) > 1 and made.kind == "diameter")


def _fine(line: PlanLine) -> bool:
    choice = line.choice
    if choice is None or choice.resolution_asked is None:
        return False
    if choice.unit == "deg":
        return choice.resolution_asked < _FINE_ANGLE
    if choice.unit not in ("mm", "inch"):
        return False
    return to_base(choice.resolution_asked, choice.unit) < _FINE_LENGTH


def feature_of(line: PlanLine) -> str:
    """The feature an instrument must reach, in one of the words of the table of hints; the first that may be meant."""
    features = needs(line.characteristic).features if line.characteristic else ()
    if not features:
        return "any"
    first = features[0]
    if first in FORM_FEATURES:
        return "form"
    if first in ANGLE_FEATURES:
        return "angle"
    return "any" if len(features) > 1 else first
