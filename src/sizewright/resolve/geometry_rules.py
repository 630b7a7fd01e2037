"""What each geometric characteristic takes: datums, marks before its zone, modifiers. Tables only.

Sources: ISO 1101 (characteristics and zones), ISO 2692 (M, L, R), ASME Y14.5-2018 (the same, U, T, P), written from
memory. ISO lets coaxiality and symmetry take (M); ASME never did, and dropped both characteristics in 2018.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

DATUM_LETTERS_TO_AVOID = frozenset("IOQ")


@dataclass(frozen=True, slots=True)
class Rule:
    """One characteristic.

    `zone` names the zone that has no mark before it, `words` says it with its width at `{zone}`; `derived` is what lies
    in a round one. `marks` are the shapes that may be typed. `datums`: none, free, usual (a warning without) or needed.
    `modifiers` are those of M, L, P, T, U that it takes; `without` says what to do instead of one it does not.
    """

    family: Literal["form", "profile", "orientation", "location", "run-out"]
    zone: str
    words: str
    datums: Literal["none", "free", "usual", "needed"]
    marks: tuple[str, ...] = ()
    modifiers: str = ""
    derived: str = "axis"
    instead: str = ""
    without: dict[str, str] = field(default_factory=dict)
    asme_without_material: bool = False

    def material_doubtful(self, manner: str) -> bool:
        """Whether (M) and (L) are the practice of ISO alone and the drawing is made after ASME."""
        return self.asme_without_material and manner == "asme"


_NO_BONUS = {"M": "no modifier: nothing is added at any size", "L": "no modifier: nothing is added at any size"}
_PLANES = "the surface, axis or middle plane lies between two parallel planes {zone} apart"
_RUN_OUT = dict.fromkeys("ML", "no modifier; position or perpendicularity take (M)")

RULES = {
    "straightness": Rule(
        "form", "two lines", "each line of the surface lies between two parallel lines {zone} apart", "none",
        ("diameter",), "ML", instead="parallelism or angularity to the datum", without=_NO_BONUS,
    ),
    "flatness": Rule(
        "form", "two planes", "the whole surface lies between two parallel planes {zone} apart", "none", (), "ML",
        instead="parallelism or perpendicularity to the datum", without=_NO_BONUS,
    ),
    "roundness": Rule(
        "form", "two circles", "each section lies between two concentric circles whose radii differ by {zone}", "none",
        instead="run-out to the datum", without=_NO_BONUS,
    ),
    "cylindricity": Rule(
        "form", "two cylinders", "the surface lies between two coaxial cylinders whose radii differ by {zone}", "none",
        instead="total run-out to the datum", without=_NO_BONUS,
    ),
    "line profile": Rule(
        "profile", "two profile lines",
        "each line lies between two profiles {zone} apart, half to each side unless told", "free", (), "U",
        without=_NO_BONUS,
    ),
    "surface profile": Rule(
        "profile", "two profile surfaces",
        "the surface lies between two profiles {zone} apart, half to each side unless told", "free", (), "UT",
        without=_NO_BONUS,
    ),
    "angularity": Rule(
        "orientation", "two planes", _PLANES + ", at the basic angle to the datum", "needed", ("diameter",), "MLPT"
    ),
    "perpendicularity": Rule(
        "orientation", "two planes", _PLANES + ", square to the datum", "needed", ("diameter",), "MLPT"
    ),
    "parallelism": Rule(
        "orientation", "two planes", _PLANES + ", parallel to the datum", "needed", ("diameter",), "MLPT"
    ),
    "position": Rule(
        "location", "two planes",
        "the middle plane, axis or surface lies between two planes {zone} apart about its true place", "usual",
        ("diameter", "spherical diameter"), "MLP",
    ),
    "concentricity": Rule(
        "location", "not told", "the axis or median points lie in a zone {zone} wide about the datum axis", "needed",
        ("diameter", "spherical diameter"), "MLP", asme_without_material=True,
    ),
    "symmetry": Rule(
        "location", "two planes",
        "the middle plane or median points lie between two planes {zone} apart about the datum",
        "needed", (), "MLP", asme_without_material=True,
    ),
    "circular run-out": Rule(
        "run-out", "full indicator movement", "an indicator moves {zone} at most over one turn, at each place alone",
        "needed", without=_RUN_OUT,
    ),
    "total run-out": Rule(
        "run-out", "full indicator movement",
        "an indicator moves {zone} at most over the whole surface, turning", "needed",
        without=_RUN_OUT,
    ),
}  # fmt: skip

MODIFIER_WORDS = {
    "M": "at maximum material: the zone grows by what the feature departs from it (ISO 2692, ASME Y14.5)",
    "L": "at least material: the zone grows by what the feature departs from it (ISO 2692, ASME Y14.5)",
    "S": "regardless of feature size: the zone is the same at every size",
    "R": "reciprocity: what the zone leaves unused may go to the size (ISO 2692)",
    "P": "projected: the zone stands this high above the part, where the bolt or pin is (ISO 10578, ASME Y14.5)",
    "F": "free state: measured unclamped (ISO 10579, ASME Y14.5)",
    "T": "tangent plane: the plane that rests on the high points lies in the zone (ASME Y14.5)",
    "U": "unequally disposed: this much of the zone lies outside the material of the true profile (ASME Y14.5)",
    "UZ": "the middle of the zone is set off by this much, + out of the material (ISO 1660)",
    "OZ": "the zone may shift by an amount that is not told (ISO 1660)",
    "CZ": "combined zone: the features are measured as one (ISO 1101)",
    "SZ": "separate zones: each feature by itself (ISO 1101)",
    "DYNAMIC": "dynamic profile: the form is held while the size may vary (ASME Y14.5-2018)",
    "ST": "statistical: holds where the process is under statistical control (ASME Y14.5)",
}
