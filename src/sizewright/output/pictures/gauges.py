"""Which kind of instrument is drawn how, and the words that go with the drawing."""

from __future__ import annotations

from collections.abc import Callable

from sizewright.output.pictures import sketch_bores as bores
from sizewright.output.pictures import sketch_limits as limits
from sizewright.output.pictures import sketch_plate as plate
from sizewright.output.pictures.sketch import Sketch

_DRAWINGS: dict[str, tuple[Callable[[Sketch], None], str]] = {
    "digital caliper": (bores.caliper, "Outer jaws for outside sizes, inner jaws for slots, the rod for depths."),
    "digital outside micrometer": (
        bores.micrometer,
        "The part stands between anvil and spindle; the ratchet sets the force.",
    ),
    "inside micrometer": (
        bores.inside_micrometer,
        "Swung in the bore: the largest reading across, the least along the axis.",
    ),
    "three-point bore micrometer": (
        bores.three_point,
        "Three anvils at a third of a turn each find the axis by themselves.",
    ),
    "dial bore gauge": (bores.dial_bore, "Swung in the bore: where the hand turns back is the diameter."),
    "telescoping gauge": (bores.telescoping, "Locked lightly in the bore, swung once, then measured over."),
    "small-hole gauge": (bores.small_hole, "A cone opens a split ball until it drags; then it is measured over."),
    "feeler gauges": (bores.feeler, "Leaves are slid into the gap, one after the other."),
    "pin gauges": (bores.pins, "The pin that enters and the next that does not have the size between them."),
    "plug gauge": (limits.plug, "The go end enters, the not-go end does not."),
    "ring gauge": (limits.ring, "The go ring passes over, the not-go ring stops at the end."),
    "snap gauge": (limits.snap, "The go jaws pass over the shaft, the not-go jaws stop it."),
    "thread plug gauge": (
        limits.thread_plug,
        "The go end turns in over the whole length, the not-go end hardly at all.",
    ),
    "thread ring gauge": (
        limits.thread_ring,
        "The go ring turns on over the whole length, the not-go ring hardly at all.",
    ),
    "taper thread gauge": (
        limits.taper_thread,
        "Where the gauge stops, the face of the part stands between its steps.",
    ),
    "thread micrometer": (
        limits.thread_anvils,
        "A cone in a groove and a vee over a crest touch at the pitch diameter.",
    ),
    "three-wire set": (limits.three_wires, "Two wires on one side, one opposite; measured over all three."),
    "thread pitch gauge": (limits.pitch_gauge, "The leaf along which no light shows has the pitch of the thread."),
    "radius gauges": (limits.radius_leaf, "Light at the ends or in the middle tells a leaf that does not fit."),
    "roughness comparator plates": (
        limits.comparator_plates,
        "The nail goes across the marks of plate and part in turn.",
    ),
    "digital height gauge": (
        plate.height_gauge,
        "Base and part stand on one plate; the scriber touches the upper face.",
    ),
    "indicator over gauge blocks": (
        plate.stacked_indicator,
        "Zero on the stack; the difference on the part adds to it.",
    ),
    "gauge blocks": (plate.gauge_blocks, "Few blocks, wrung together, make the length."),
    "surface plate": (plate.surface_plate, "The datum face lies on the plate; all heights count from there."),
    "precision square": (plate.square, "Light between blade and part shows how far it is off."),
    "sine bar": (plate.sine_bar, "The stack under one roller sets the angle: height is length times sine."),
    "combination protractor": (plate.protractor, "Head and blade lie on the two faces; the scale tells the angle."),
    "plunger dial gauge": (plate.plunger, "The plunger stands square to the face; tilted it reads too much."),
    "test indicator": (plate.stylus, "The stylus lies nearly flat to the face; steep it reads too much."),
    "roughness tester": (plate.profile, "Five cut-offs with run-up and overrun, across the lay."),
    "optical comparator": (plate.projector, "The shadow of the part on a screen, enlarged."),
    "coordinate measuring machine": (plate.coordinates, "A ball touches the part; its places are computed to sizes."),
}


def has_drawing(kind: str) -> bool:
    """Whether the kind has a drawing of its principle."""
    return kind in _DRAWINGS


def drawing_words(kind: str) -> str:
    """What the drawing of the kind shows, in one sentence."""
    return _DRAWINGS[kind][1]


def drawing_of(kind: str) -> Sketch:
    """The drawing of the kind's principle; it is no picture of a maker's gauge and not to scale."""
    draw, words = _DRAWINGS[kind]
    pen = Sketch(words)
    draw(pen)
    return pen
