"""Which kind of characteristic a mark asks for."""

from __future__ import annotations

PILOT_HOLE = "pilot hole"
OF_THE_DRILL = frozenset({PILOT_HOLE, "drill"})  # a depth with these notes is the drill's, not the thread's
DRILLS = frozenset({"drill", "tap drill", "tapping drill", "pilot drill"})  # notes that name a drill

KIND_OF_MARK = {
    "DIAMETER": "diameter",
    "INSIDE": "diameter",
    "OUTSIDE": "diameter",
    "SPHERICAL_DIAMETER": "spherical diameter",
    "RADIUS": "radius",
    "SPHERICAL_RADIUS": "spherical radius",
    "CONTROLLED_RADIUS": "controlled radius",
    "SQUARE": "square",
    "ACROSS_FLATS": "across flats",
    "THICKNESS": "thickness",
    "ARC_LENGTH": "arc length",
    "DEPTH": "depth",
    "CHAMFER": "chamfer size",
    "CHAMFER_C": "chamfer size",
    "THREAD_DEPTH": "thread depth",
    "THREAD_LENGTH": "thread length",
    "FULL_THREAD": "full thread",  # the depth of a hole's thread, the length of a screw's
    "BOLT_CIRCLE": "bolt circle diameter",
    "WIDE": "wide",  # of a slot, keyway or groove, or of the part
    "OVERALL": "length",  # of the part, whatever stands before it
    "LONG": "long",  # the length of the thread before it, or of the part
}
# What belongs to the feature before it, whatever stands between them.
DEPENDENT_KINDS = frozenset({"depth", "thread depth", "thread length", "full thread", "long", "wide"})
SIDE_OF_MARK = {"INSIDE": ("id",), "OUTSIDE": ("od",)}
NOTE_OF_MARK = {"HEXAGON": "hexagon", "PILOT_HOLE": PILOT_HOLE}
