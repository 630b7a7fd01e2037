"""Writing frames and datums: bars between the compartments, marks for the characteristics, circles as brackets."""

from __future__ import annotations

from collections.abc import Callable

from sizewright.notation.datums import DOUBTFUL_DATUMS
from sizewright.notation.model import Amount, DatumFeature, DatumTarget, Frame, FrameModifier, Portion

_MARKS = {
    "straightness": "⏤",
    "flatness": "⏥",
    "roundness": "○",
    "cylindricity": "⌭",
    "line profile": "⌒",
    "surface profile": "⌓",
    "angularity": "∠",
    "perpendicularity": "⟂",
    "parallelism": "∥",
    "position": "⌖",
    "concentricity": "◎",
    "symmetry": "⌯",
    "circular run-out": "↗",
    "total run-out": "⌰",
}
_SHAPES = {"": "", "diameter": "Ø", "spherical diameter": "SØ"}

# How the number of an amount is written, without its sign.
Write = Callable[[Amount], str]


def write_geometry(feature: Frame | DatumFeature | DatumTarget, amount: Write, times: str) -> str:
    """The text of a frame or a datum; `times` stands between the sides of an area."""
    if isinstance(feature, DatumFeature):
        return f"[{feature.letter}]"
    if isinstance(feature, DatumTarget):
        area = "" if feature.area is None else f" {_portion(feature.area, amount, times)}"
        return f"DATUM TARGET {feature.label}{area}"
    return _frame(feature, amount, times)


def _frame(frame: Frame, amount: Write, times: str) -> str:
    below = frame.shared_symbol and frame.segment[0] > 1
    zone = _SHAPES[frame.shape] + amount(frame.zone)
    if frame.portion is not None:
        zone += f"/{_portion(frame.portion, amount, times)}"
    if frame.indicator:
        zone += " TIR"
    zone += "".join(f" {_modifier(each, amount)}" for each in frame.modifiers)
    compartments = [zone, *(datum.name for datum in frame.datums)]
    if frame.datums and frame.datums[0].elements[0].letter in DOUBTFUL_DATUMS:
        compartments[1] = f"TO {compartments[1]}"
    text = ("|" if below else f"|{_MARKS[frame.characteristic]}|") + "|".join(compartments) + "|"
    words = [frame.scope.upper(), *(note.upper() for note in frame.notes)]
    return " ".join([text, *filter(None, words)])


def _portion(portion: Portion, amount: Write, times: str) -> str:
    first = amount(portion.first)
    if portion.second is not None:
        return f"{first} {times} {amount(portion.second)}"
    return f"Ø{first}" if portion.round else first


def _modifier(modifier: FrameModifier, amount: Write) -> str:
    name = {"DYNAMIC": "△", "ST": "<ST>"}.get(modifier.name, modifier.name)
    text = f"({name})" if len(name) == 1 and name.isalpha() else name
    if modifier.amount is None:
        return text
    sign = "-" if modifier.amount.value < 0 else "+" if modifier.name in ("UZ", "OZ") else ""
    return f"{text} {sign}{amount(modifier.amount)}"
