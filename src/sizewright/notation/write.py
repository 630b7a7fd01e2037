"""Writing: from a model to text that reads to the same model, in the manner `iso` or `asme`.

What the manners differ in stands in `write_styles.py` as data: decimal mark, zero rules, order of limits, words.
"""

from __future__ import annotations

from sizewright.notation.forms import FORM_KINDS, FORM_SIGNS, form_of_kind
from sizewright.notation.kinds import DEPENDENT_KINDS, PILOT_HOLE
from sizewright.notation.model import (
    ONCE,
    Amount,
    Callout,
    Chamfer,
    Classed,
    DatumFeature,
    DatumTarget,
    Deviations,
    Feature,
    Frame,
    GeneralNote,
    GeneralRule,
    InchFit,
    LimitPair,
    Measure,
    PlusMinus,
    Repeat,
    Repeated,
    Size,
    Standing,
    Thread,
    Tolerance,
    UnitsNote,
)
from sizewright.notation.write_geometry import write_geometry
from sizewright.notation.write_numbers import amount_text, deviation_text, limits_text
from sizewright.notation.write_styles import STYLES, Style, Unit
from sizewright.notation.write_surfaces import write_surface
from sizewright.notation.write_threads import write_thread

# What tells a number of a form: before it, and after it.
FORM_MARKS = {
    "diameter": ("Ø", ""),
    "angle": ("", ""),
    "depth": ("↧", ""),
    "width": ("", " WIDE"),
    "length": ("", " LONG"),
}
_MARKS = {
    "length": "",
    "angle": "",
    "diameter": "Ø",
    "spherical diameter": "SØ",
    "radius": "R",
    "spherical radius": "SR",
    "controlled radius": "CR",
    "square": "□",
    "across flats": "A/F ",
    "arc length": "⌢",
    "depth": "↧",
    "bolt circle diameter": "BC Ø",
    "thread depth": "THREAD DEPTH ",
    "thread length": "THREAD LENGTH ",
}


def write_callout(callout: Callout, manner: str, unit: Unit = "mm") -> str:
    """The text of `callout`; `unit` is the drawing's, for the zero rules of numbers typed without one."""
    style = STYLES[manner]
    text = ""
    features = callout.features
    continued = _continued(features)
    for position, feature in enumerate(features):
        before = features[position - 1] if position else None
        body = _feature(feature, style, unit)
        if isinstance(feature, Size) and feature.kind in FORM_KINDS:
            text += _joined_form(text, body, feature, style, continued=continued[position])
        else:
            text += _joined(text, body, feature, before, style)
        following = features[position + 1] if position + 1 < len(features) else None
        goes_on = following is not None and (continued[position + 1] or _goes_on(feature, following))
        goes_on = goes_on or _stacked(following)
        if _repeat_of(feature).typical and not goes_on:
            text += " TYP"
    return text


def _continued(features: tuple[Feature, ...]) -> list[bool]:
    """For each feature, whether it is a further number of the counterbore, slot or the like before it."""
    continued = []
    group: list[Size] = []
    for feature in features:
        formed = isinstance(feature, Size) and feature.kind in FORM_KINDS
        same = formed and bool(group) and _same_form(group, feature)
        continued.append(same)
        group = [*(group if same else []), feature] if formed else []  # type: ignore[list-item]
    return continued


def _same_form(group: list[Size], feature: Feature) -> bool:
    """Whether a number belongs to a group: of the same form and count, and of a kind that the group has not yet."""
    if not isinstance(feature, Size) or feature.repeat != group[-1].repeat:
        return False
    known = {each.kind for each in group}
    return form_of_kind(feature.kind) == form_of_kind(group[-1].kind) and feature.kind not in known


def _joined(text: str, body: str, feature: Feature, before: Feature | None, style: Style) -> str:
    """A feature with its count and what parts it from the text before: a semicolon, which ends a count."""
    if before is None:
        return _counted(body, _repeat_of(feature), None, style)
    if _stacked(feature):
        return "\n" + body
    if _goes_on(before, feature):
        if isinstance(before, Thread):
            body = body.replace(_MARKS["thread depth"], _MARKS["depth"], 1)
        return (" " if body.startswith("↧") else "; ") + body
    running = _repeat_of(before) if _depends(feature) else None
    return ("; " if text else "") + _counted(body, _repeat_of(feature), running, style)


def _joined_form(text: str, body: str, feature: Size, style: Style, *, continued: bool) -> str:
    """A number of a form: its word before the first, an x before the others."""
    if continued:
        return f" {body}" if body.startswith("↧") else f" {style.times} {body}"
    form = form_of_kind(feature.kind)
    assert form is not None
    return ("; " if text else "") + _counted(f"{FORM_SIGNS[form]} {body}", _repeat_of(feature), None, style)


def _goes_on(before: Feature, feature: Feature | None) -> bool:
    """Whether a feature is the depth of the hole or thread before it, and shares its count."""
    hole = isinstance(before, Thread) or (isinstance(before, Size) and before.kind in ("diameter", "square"))
    return hole and feature is not None and _depends(feature) and _repeat_of(feature) == _repeat_of(before)


def _stacked(feature: Feature | None) -> bool:
    """Whether a frame is a further segment of the one before it, and shares its count."""
    return isinstance(feature, Frame) and feature.segment[0] > 1


def _depends(feature: Feature) -> bool:
    """Whether a feature belongs to the one before it, whatever parts them."""
    return isinstance(feature, Size) and feature.kind in DEPENDENT_KINDS


def _counted(body: str, repeat: Repeat, running: Repeat | None, style: Style) -> str:
    return _count(repeat, style) + body if _must_count(repeat, running) else body


def _repeat_of(feature: Feature) -> Repeat:
    return feature.repeat if isinstance(feature, Repeated) else ONCE


def _must_count(repeat: Repeat, running: Repeat | None) -> bool:
    """Whether a count is to be written; once goes without saying where nothing is typed."""
    if repeat.count is None:
        return False
    if running is None:
        return repeat != ONCE
    return (repeat.count, repeat.holes) != (running.count, running.holes)


def _count(repeat: Repeat, style: Style) -> str:
    return f"{repeat.count} HOLES, " if repeat.holes else f"{repeat.count}{style.times} "


def _feature(feature: Feature, style: Style, unit: Unit) -> str:
    match feature:
        case Size():
            return _size(feature, style, unit)
        case Chamfer():
            return _chamfer(feature, style, unit)
        case Thread():
            return write_thread(feature, style.times, comma=style.comma)
        case Frame() | DatumFeature() | DatumTarget():
            return write_geometry(feature, lambda amount: amount_text(amount, style, unit), style.times)
        case GeneralNote(rules):
            return ", ".join(_rule(rule, style, unit) for rule in rules)
        case UnitsNote():
            return f"ALL DIMENSIONS IN {'MM' if feature.unit == 'mm' else 'INCHES'}"
        case _:
            return write_surface(feature, lambda inner: _feature(inner, style, unit), comma=style.comma)


def _size(size: Size, style: Style, unit: Unit) -> str:
    if size.measure.nominal is None and size.measure.tolerance is None and not size.drill:
        return "FULL R" + _notes(size.notes)
    if size.kind in FORM_KINDS:
        return _formed(size, style, unit)
    if size.measure.nominal is None and size.measure.tolerance is None:
        said = next((note for note in size.notes if note in ("drill", "ream")), "drill")
        return f"{size.drill} {said.upper()}{_after(size, style, unit, said)}"
    mark = style.thickness if size.kind == "thickness" else _MARKS[size.kind]
    if "hexagon" in size.notes:
        mark = "HEX " + mark
    axis = next((note[0] for note in size.notes if note.endswith(" coordinate")), "")
    if axis:
        style = style._replace(high_first=True)  # with a dash the second limit would be a coordinate below zero
        value = size.measure.nominal.value if size.measure.nominal is not None else 0
        mark = f"{axis} {'-' if value < 0 else ''}"
    if PILOT_HOLE in size.notes:
        mark = "PILOT HOLE " + mark
    said = next((note for note in size.notes if note in _BEFORE.get(size.kind, ())), "")
    mark = {"od": "OD ", "id": "ID ", "drill": f"DRILL {mark}"}.get(said, mark)
    return write_measure(size.measure, style, unit, mark) + _after(size, style, unit, said)


_BEFORE = {"diameter": ("od", "id"), "depth": ("drill",)}  # notes that are written in front


def _after(size: Size, style: Style, unit: Unit, said: str = "") -> str:
    """What stands after a size; the note `said` is written already."""
    text = ""
    if size.through:
        text += " THRU ALL" if size.through == "through all" else " THRU"
    if size.total is not None:
        text += f" (={amount_text(size.total, style, unit)})"
    if size.shorter_side is not None:
        text += f" (shorter side {amount_text(size.shorter_side, style, unit)})"
    if size.drill and said not in ("drill", "ream"):
        text += f" ({size.drill} DRILL)"
    notes = tuple(note for note in size.notes if note != said)
    return text + "".join(f" ({modifier})" for modifier in size.modifiers) + _notes(notes)


def _formed(size: Size, style: Style, unit: Unit) -> str:
    """One number of a counterbore, slot or the like, with the mark that tells which it is."""
    before, after = FORM_MARKS[size.kind.split(" ")[1]]
    return write_measure(size.measure, style, unit, before) + after + _after(size, style, unit)


def _notes(notes: tuple[str, ...]) -> str:
    """Notes as words; those that a mark writes are left out."""
    written = ("hexagon", PILOT_HOLE)
    return "".join(f" {note.upper()}" for note in notes if note not in written and not note.endswith(" coordinate"))


def _chamfer(chamfer: Chamfer, style: Style, unit: Unit) -> str:
    size = write_measure(chamfer.size, style, unit)
    by = f" {style.times} "
    if chamfer.second is not None:
        text = f"CHAM {size}{by}{write_measure(chamfer.second, style, unit)}"
    elif chamfer.angle is None:
        text = f"CHAM {size}" if not chamfer.letter_c else _letter_c(chamfer.size, style, unit)
    else:
        angle = write_measure(chamfer.angle, style, unit)
        mark = "CHAM " if angle[0] in "([" else ""  # 1 x (30°) alone would read as a count
        text = f"{angle}{by}{size}" if chamfer.angle_first else f"{mark}{size}{by}{angle}"
    return text + _notes(chamfer.notes)


def _letter_c(size: Measure, style: Style, unit: Unit) -> str:
    """`C1 BASIC`: no bracket stands behind a C."""
    words = {Standing.BASIC: " BASIC", Standing.REFERENCE: " REF"}
    plain_size = size._replace(standing=Standing.PLAIN)
    return f"C{write_measure(plain_size, style, unit)}{words.get(size.standing, '')}"


def write_measure(measure: Measure, style: Style, unit: Unit, mark: str = "") -> str:
    """One size with its tolerance, and the second dimension beside it."""
    text = mark + _toleranced(measure, style, unit)
    if measure.bound:
        text += f" {style.bounds[measure.bound]}"
    if measure.standing is Standing.REFERENCE:
        text = f"({text})"
    elif measure.standing is Standing.BASIC:
        text = f"[{text}]"
    if measure.other is not None:
        other_unit: Unit = "inch" if (_unit(measure) or unit) == "mm" else "mm"
        text += f" [{_toleranced(measure.other, style, other_unit)}]"
    return text


def _unit(measure: Measure) -> Unit | None:
    return measure.nominal.unit if measure.nominal is not None else None


def _toleranced(measure: Measure, style: Style, unit: Unit) -> str:
    if isinstance(measure.tolerance, LimitPair):
        return limits_text(measure.tolerance, style, unit)
    nominal = measure.nominal
    assert nominal is not None
    if not nominal.value and isinstance(measure.tolerance, PlusMinus | Deviations):
        nominal = nominal._replace(unit=None)  # an origin has the unit of its tolerance: 0 ±0.1"
    size = amount_text(nominal, style, unit)
    match measure.tolerance:
        case PlusMinus(amount):
            return f"{size} ±{amount_text(amount, style, unit)}"
        case Deviations(upper, lower):
            return f"{size} {_deviations(upper, lower, style, unit)}"
        case Classed(classes, typed):
            return f"{size} {'/'.join(c.name for c in classes)}{_beside(typed, style, unit)}"
        case InchFit(symbol, member):
            return f"{size} {symbol}" + (f" {member.upper()}" if member else "")
        case _:
            return size


def _deviations(upper: Amount, lower: Amount, style: Style, unit: Unit) -> str:
    return f"{deviation_text(upper, style, unit, '+')}/{deviation_text(lower, style, unit, '-')}"


def _beside(typed: Tolerance | None, style: Style, unit: Unit) -> str:
    """Deviations or limits that stand in brackets after a tolerance class."""
    match typed:
        case PlusMinus(amount):
            return f" ±{amount_text(amount, style, unit)}"
        case Deviations(upper, lower):
            return f" ({_deviations(upper, lower, style, unit)})"
        case LimitPair():
            return f" ({limits_text(typed, style, unit)})"
        case _:
            return ""


def _rule(rule: GeneralRule, style: Style, unit: Unit) -> str:
    if rule.amount is None:
        return f"ISO 2768-{rule.classes}" if rule.classes else "ISO 2768"
    names = {"fractions": "FRACTIONS", "angles": "ANGLES", "linear": "LINEAR", "0": "X"}
    name = names.get(rule.applies) or "." + "X" * int(rule.applies)
    return f"{name} ±{amount_text(rule.amount, style, unit)}"
