"""General tolerances: what a size without a tolerance of its own takes from the title block."""

from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.notation.model import Amount, Form, GeneralNote, GeneralRule
from sizewright.resolve.context import Context
from sizewright.resolve.units import convert
from sizewright.standards import iso2768
from sizewright.standards.errors import NotDefined
from sizewright.text.numbers import Number, places, plain

# ISO 2768-1: broken edges (external radii, chamfer heights) have a table of their own.
BROKEN_EDGE_KINDS = frozenset({"radius", "controlled radius", "chamfer size"})


class Taken(NamedTuple):
    """A general tolerance taken: the deviation ± in the size's unit (None where there is none), with the reason."""

    deviation: Number | None
    why: str
    remark: str = ""


def general_tolerance(
    kind: str, nominal: Amount, unit: str, context: Context, note: GeneralNote, shorter_side: Amount | None = None
) -> Taken:
    """What the general tolerances `note` give a size of `kind`."""
    angle = unit == "deg"
    rule = _angle_rule(note) if angle else _length_rule(note, nominal)
    if rule is not None and rule.amount is not None:
        return _from_rule(rule, nominal, unit, context)
    standard = next((rule for rule in note.rules if rule.standard), None)
    if standard is not None and standard.classes[:1] in iso2768.CLASSES:
        class_ = standard.classes[0]
        return _angle(shorter_side, context, class_) if angle else _linear(kind, nominal.value, unit, class_)
    if standard is not None and len(note.rules) == 1:
        return Taken(None, "", f"{standard.standard} is called without a class for sizes (f, m, c or v)")
    return Taken(None, "", _no_rule(angle, nominal))


def _angle_rule(note: GeneralNote) -> GeneralRule | None:
    return next((rule for rule in note.rules if rule.applies == "angles"), None)


def _length_rule(note: GeneralNote, nominal: Amount) -> GeneralRule | None:
    by = {rule.applies: rule for rule in note.rules}
    if nominal.form in (Form.FRACTION, Form.FEET):
        return by.get("fractions") or by.get("linear")
    assert isinstance(nominal.value, Decimal)
    return by.get(str(places(nominal.value))) or by.get("linear")


def _from_rule(rule: GeneralRule, nominal: Amount, unit: str, context: Context) -> Taken:
    assert rule.amount is not None
    value = rule.amount.value
    if rule.applies == "angles":
        return Taken(value, f"general tolerance, angles ±{plain(value)}°")
    rule_unit = rule.amount.unit or context.unit
    if rule_unit != unit:
        return Taken(None, "", f"the title block's rules are in {rule_unit}, this size in {unit}: no limits taken")
    words = {"fractions": "fractions", "linear": "linear sizes"}
    said = words.get(rule.applies) or f"{rule.applies} decimal places as typed ({plain(nominal.value)})"
    return Taken(value, f"general tolerance, {said}: ±{plain(value)} {unit}")


def _no_rule(angle: bool, nominal: Amount) -> str:
    if angle:
        return "the general tolerances have no rule for angles"
    if nominal.form in (Form.FRACTION, Form.FEET):
        return "the general tolerances have no rule for fractions"
    assert isinstance(nominal.value, Decimal)
    return f"the general tolerances have no rule for a size of {places(nominal.value)} decimal places"


def _linear(kind: str, value: Number, unit: str, class_: str) -> Taken:
    edge = kind in BROKEN_EDGE_KINDS
    size = Fraction(value) if unit == "mm" else convert(value, unit, "mm")
    try:
        deviation, step = (iso2768.broken_edge if edge else iso2768.linear)(size, class_)
    except NotDefined as error:
        return Taken(None, "", error.message)
    table = "Table 2 (broken edges)" if edge else "Table 1"
    why = f"ISO 2768-1 class {class_}, {table}, {step.words}: ±{deviation} mm"
    remark = ""
    if kind == "radius":
        inner = _linear("length", value, unit, class_)
        remark = f"taken as an external radius; an internal one takes {inner.why or inner.remark}"
    return Taken(deviation if unit == "mm" else convert(deviation, "mm", unit), why, remark)


def _angle(shorter_side: Amount | None, context: Context, class_: str) -> Taken:
    if shorter_side is None:
        ladder = "; ".join(f"{step.words}: ±{step.deviation}'" for step in iso2768.steps("iso2768_angular", class_))
        return Taken(
            None,
            "",
            "ISO 2768-1 tolerances an angle by the length of its shorter side, which is not typed "
            f"(30° (shorter side 40)). Class {class_}: {ladder}",
        )
    unit = shorter_side.unit or context.unit
    length = Fraction(shorter_side.value) if unit == "mm" else convert(shorter_side.value, unit, "mm")
    try:
        deviation, step = iso2768.angular(length, class_)
    except NotDefined as error:
        return Taken(None, "", error.message)
    return Taken(deviation, f"ISO 2768-1 class {class_}, Table 3, shorter side {step.words}: ±{step.deviation}'")
