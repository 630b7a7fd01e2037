"""Notes that apply to the whole drawing: general tolerances and units."""

from __future__ import annotations

from collections.abc import Iterator

from sizewright.notation.model import GeneralNote, GeneralRule, UnitsNote
from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.resolve.scope import Scope
from sizewright.text.numbers import plain


def resolve_note(note: GeneralNote | UnitsNote, scope: Scope) -> Iterator[Characteristic]:
    """The characteristics of a note: one a rule, with its deviations as limits, or the unit of the drawing."""
    if isinstance(note, UnitsNote):
        yield _units(note, scope)
        return
    scope.info("a general tolerance: type it in the title block (general:) for the other callouts to take it")
    for rule in note.rules:
        yield _rule(rule, scope)


def _rule(rule: GeneralRule, scope: Scope) -> Characteristic:
    if rule.amount is None:
        return Characteristic(
            "general tolerance",
            "none",
            Status.UNTOLERANCED,
            count=None,
            class_=rule.classes or None,
            why=(f"{rule.standard}, classes {rule.classes or 'not told'}: the deviation goes by the size",),
        )
    angle = rule.applies == "angles"
    value = rule.amount.value
    applies = f"sizes of {rule.applies} decimal places" if rule.applies.isdigit() else f"{rule.applies} sizes"
    return Characteristic(
        "general tolerance",
        "deg" if angle else scope.unit_of(rule.amount),
        Status.TOLERANCED,
        limits=(Limits("size", -value, value),),
        count=None,
        why=(f"general tolerance of {'angles' if angle else applies}: ±{plain(value)}",),
    )


def _units(note: UnitsNote, scope: Scope) -> Characteristic:
    if note.unit != scope.context.unit:
        scope.warn(f"the note says {note.unit}, the sheet {scope.context.unit}: set the unit in the title block")
    return Characteristic(
        "units note", "none", Status.UNTOLERANCED, count=None, why=(f"dimensions are in {note.unit}",)
    )
