"""Which feature of a part a characteristic is about, and in which units a feature is measured: tables only.

A feature is what an instrument has to reach: an outside, a bore, a slot, a depth. The kind of a characteristic and its
side tell it; where the side is not told, every feature that may be meant is named.
"""

from typing import NamedTuple

from sizewright.instruments.amounts import ANGLES, LENGTHS, TEXTURES
from sizewright.resolve.characteristic import Characteristic

FEATURE_WORDS = {
    "outside": "outside",
    "inside": "inside",
    "slot": "between inner faces",
    "depth": "depth",
    "step": "step",
    "mouth": "mouth of a countersink",
    "groove outside": "outside a groove",
    "groove inside": "inside a groove",
    "centres": "distance of centres",
    "outline": "outline",
    "chamfer": "edge",
    "radius": "radius",
    "angle": "angle",
    "chamfer angle": "angle of a chamfer",
    "cone angle": "angle of a countersink",
    "taper": "taper",
    "thread outside": "outside thread",
    "thread inside": "inside thread",
    "taper thread outside": "outside taper thread",
    "taper thread inside": "inside taper thread",
    "texture": "surface texture",
}
FORM_FEATURES = frozenset({
    "straightness", "flatness", "roundness", "cylindricity", "line profile", "surface profile", "angularity",
    "perpendicularity", "parallelism", "position", "concentricity", "symmetry", "circular run-out", "total run-out",
})  # fmt: skip
ANGLE_FEATURES = frozenset({"angle", "chamfer angle", "cone angle", "taper"})
IDLE_FEATURES = frozenset({"pitch", "standard"})  # they identify, or carry other instruments; no line asks for them

THREAD_FEATURES = frozenset({"thread outside", "thread inside", "taper thread outside", "taper thread inside"})
# Here a gauge that shows no value is the workshop's way: a radius is judged against a leaf, a thread by go and not-go.
GAUGE_FEATURES = THREAD_FEATURES | {"radius"}
OPENINGS = frozenset({"inside", "slot", "groove inside", "mouth"})
OUTER = frozenset({"outside", "groove outside", "thread outside", "taper thread outside"})
# Pipe threads that a taper gauge checks, also the parallel Rp (ISO 7-1).
_TAPER_GAUGED = frozenset({"R", "Rc", "Rp", "NPT", "NPTF"})


class Needs(NamedTuple):
    """The features a characteristic may be (several where its side is not told); none, and why, where nothing is."""

    features: tuple[str, ...]
    why: str = ""


class _Row(NamedTuple):
    external: tuple[str, ...]
    internal: tuple[str, ...]
    untold: tuple[str, ...]


def _same(feature: str) -> _Row:
    return _Row((feature,), (feature,), (feature,))


def _sides(external: str, internal: str, *more: str) -> _Row:
    return _Row((external,), (internal,), (external, internal, *more))


_NO_INSTRUMENT = {
    "hardness": "hardness needs a hardness tester of the scale called for, with its reference block",
    "case depth": "a case depth needs a cut and polished sample and a row of hardness readings",
    "knurl": "a knurl is compared with a sample by eye; its diameter is measured as a size of its own",
    "datum feature": "a datum feature names a face to measure from: nothing to measure",
    "datum target": "a datum target tells where the part is held: nothing to measure",
    "general tolerance": "a general tolerance applies to other lines: nothing to measure here",
    "units note": "a units note tells how to read the drawing: nothing to measure",
    "note": "a note is checked by looking: nothing to measure",
}
_FEATURES = {
    "length": _sides("outside", "slot", "step"),
    "diameter": _sides("outside", "inside"),
    "radius": _same("radius"),
    "controlled radius": _same("radius"),
    "spherical diameter": _sides("outside", "outline"),
    "spherical radius": _same("radius"),
    "square": _sides("outside", "slot"),
    "across flats": _sides("outside", "slot"),
    "depth": _same("depth"),
    "thickness": _same("outside"),
    "arc length": _same("outline"),
    "angle": _same("angle"),
    "chamfer size": _same("chamfer"),
    "chamfer angle": _same("chamfer angle"),
    "counterbore diameter": _same("inside"),
    "counterbore depth": _same("depth"),
    "countersink diameter": _same("mouth"),
    "countersink angle": _same("cone angle"),
    "countersink depth": _same("depth"),
    "counterdrill diameter": _same("inside"),
    "counterdrill depth": _same("depth"),
    "counterdrill angle": _same("cone angle"),
    "spotface diameter": _same("inside"),
    "spotface depth": _same("depth"),
    "slot width": _same("slot"),
    "slot length": _same("slot"),
    "slot depth": _same("depth"),
    "groove width": _same("slot"),
    "groove depth": _same("depth"),
    "groove diameter": _sides("groove outside", "groove inside"),
    "keyway width": _same("slot"),
    "keyway depth": _same("depth"),
    "keyway length": _same("slot"),
    "bolt circle diameter": _same("centres"),
    "thread": _sides("thread outside", "thread inside"),
    "thread depth": _same("depth"),
    "thread length": _same("step"),
    "taper": _same("taper"),
    "slope": _same("taper"),
    "surface texture": _same("texture"),
    "edge": _same("chamfer"),
    "edge break": _same("chamfer"),
    **{name: _same(name) for name in FORM_FEATURES},
}

_TAPER_THREAD = _sides("taper thread outside", "taper thread inside")

CHARACTERISTIC_KINDS = frozenset(_FEATURES) | frozenset(_NO_INSTRUMENT)
ALL_FEATURES = frozenset(FEATURE_WORDS) | FORM_FEATURES | IDLE_FEATURES


def needs(characteristic: Characteristic) -> Needs:
    """The features an instrument must reach for `characteristic`; none, with a plain statement, for notes and such."""
    kind = characteristic.kind
    row = _TAPER_THREAD if taper_gauged(characteristic) else _FEATURES.get(kind)
    if row is None:
        return Needs((), _NO_INSTRUMENT.get(kind, f"no instrument is tabled for {kind or 'this'}"))
    if characteristic.side == "external":
        return Needs(row.external)
    if characteristic.side == "internal":
        return Needs(row.internal)
    if len(row.untold) == 1:
        return Needs(row.untold)
    words = [word(feature) for feature in row.untold]
    return Needs(row.untold, f"{', '.join(words[:-1])} or {words[-1]} is not told")


def taper_gauged(characteristic: Characteristic) -> bool:
    """Whether a characteristic is a pipe thread that a taper gauge checks."""
    thread = characteristic.extra.get("thread")
    return isinstance(thread, dict) and thread.get("form") in _TAPER_GAUGED


def word(feature: str) -> str:
    """`feature` as a sentence names it."""
    return FEATURE_WORDS.get(feature, feature)


def units_of(feature: str) -> frozenset[str]:
    """The units in which an instrument that reaches `feature` is graduated."""
    if feature in ANGLE_FEATURES:
        return ANGLES
    return TEXTURES if feature == "texture" else LENGTHS
