"""Which kind of characteristic a mark asks for."""

from __future__ import annotations

KIND_OF_MARK = {
    "DIAMETER": "diameter",
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
}
# What belongs to the feature before it, whatever stands between them.
DEPENDENT_KINDS = frozenset({"depth"})
NOTE_OF_MARK = {"HEXAGON": "hexagon"}
