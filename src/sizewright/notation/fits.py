"""Tolerance classes and inch fits: the rules of `fits.lark`, and how they join the size they stand after."""

from __future__ import annotations

import re
from typing import Literal

from sizewright.notation.build import span_of
from sizewright.notation.model import (
    Amount,
    Classed,
    Deviations,
    InchFit,
    LimitPair,
    PlusMinus,
    Span,
    Tolerance,
    ToleranceClass,
)
from sizewright.notation.pieces import Tail
from sizewright.notation.tokens import Token
from sizewright.text.errors import CalloutError

# Kinds of which a tolerance class makes sense: features of size (ISO 286-1, scope).
CLASSED_KINDS = frozenset(
    {None, "diameter", "square", "across flats", "thickness", "spherical diameter", "wide", "bolt circle diameter"}
)
# Letters of shafts that are marks of a size too: a radius, a chamfer, a diameter, a thickness.
_MARKS_TOO = frozenset("rcdt")
# The grades of R and r in the lists of preferred fits and one beside them; any other is more likely a radius.
_GRADES_OF_R = frozenset({"6", "7", "8"})
_GRADES_OF_SMALL_R = frozenset({"5", "6", "7"})
# Letters of holes that are those of a chamfer, a pipe thread, a thread, a roughness and a radius too.
_NOTES_TOO = frozenset("CGMNR")
# Letters and grades of datum targets: a hole's class of these letters is coarser (ISO 286-2, from memory).
_TARGET_LETTERS, _TARGET_GRADES = frozenset("ABC"), frozenset("01234")
_CHAMFER_GRADES = frozenset("01234567")


class FitsBuilder:
    """Rules of `fits.lark`."""

    def tolerance_class(self, children: list[Token]) -> Tail:
        token = children[-1]  # a dash may stand before it: Ø20-H7
        return Tail("classes", (_class(token, span_of(token)),), span_of(token))

    def fit_pair(self, children: list[Token]) -> Tail:
        token = children[-1]
        start = span_of(token)[0]
        first, second = (
            _class(match[0], (start + match.start(), start + match.end()))
            for match in re.finditer(r"[A-Za-z]+ ?\d+", token)
        )
        if "/" not in token and second.letters in _MARKS_TOO:
            raise CalloutError(
                f"{second.name} can be a tolerance class or a size of its own",
                *second.span,
                f"{first.name}/{second.name} for a fit, a semicolon before it for a size",
            )
        return Tail("classes", (first, second), span_of(token))

    def inch_fit(self, children: list[Token]) -> Tail:
        token = children[0]
        letters, number = re.findall(r"[A-Za-z]{2}(?=[ -]*\d)|\d+", token)
        return Tail("inch_fit", InchFit(letters.upper() + number, None, span_of(token)), span_of(token))

    def fit_member(self, children: list[Token]) -> Tail:
        member: Literal["hole", "shaft"] = "shaft" if "shaft" in children[0].lower() else "hole"
        word = children[0].strip("() ").lower()
        return Tail("fit_member", (member, word), span_of(children[0]))


def _class(text: str, span: Span) -> ToleranceClass:
    letters, grade = re.findall(r"[A-Za-z]+|\d+", text)
    return ToleranceClass(letters, grade, span)


def classed(classes: tuple[ToleranceClass, ...], typed: Tolerance | None, nominal: Amount, kind: str | None) -> Classed:
    """The classes of a size, hole first, with what is typed beside a single one.

    Raises:
        CalloutError: the classes are not one hole and one shaft, or not of a feature of size.
    """
    first = classes[0]
    if len(classes) == 1:
        _thread_like(first, nominal)
        _size_like(first, kind)
    if len(classes) == 1 and typed is None and first.letters in _TARGET_LETTERS and first.grade in _TARGET_GRADES:
        raise CalloutError(
            f"{first.name} can be a tolerance class, a datum target or a chamfer",
            *first.span,
            "its deviations in brackets for the class; a line of its own, or a semicolon before it, for the others",
        )
    if first.letters in ("x", "X") and kind is None:
        raise CalloutError(
            f"{first.name} can be a tolerance class, or an x and a number",
            *first.span,
            f"Ø before the size for the class, a blank after the x for {first.grade}",
        )
    if first.letters in ("x", "X") and len(classes) == 1 and typed is None:
        raise CalloutError(
            f"{first.name} can be a tolerance class, or an x and a depth",
            *first.span,
            f"its deviations in brackets for the class, {first.grade} DEEP for a depth",
        )
    if len(classes) == 1:
        assert typed is None or isinstance(typed, PlusMinus | Deviations | LimitPair)
        return Classed(classes, typed)
    if typed is not None:
        raise CalloutError("deviations beside a pair of classes", *first.span, "one class with its deviations")
    one, two = classes
    if one.internal and two.internal:
        raise CalloutError(f"{one.name} and {two.name} are both holes", *two.span, "a hole and a shaft, as in H7/g6")
    if not one.internal and not two.internal:
        raise CalloutError(f"{one.name} and {two.name} are both shafts", *two.span, "a hole and a shaft, as in H7/g6")
    if not one.internal and two.letters in _NOTES_TOO:
        raise CalloutError(
            f"{two.name} can be a tolerance class or a note of its own",
            *two.span,
            f"{two.name}/{one.name} for a fit, the hole first; a semicolon before it for a note",
        )
    return Classed((one, two) if one.internal else (two, one))


def _size_like(class_: ToleranceClass, kind: str | None) -> None:
    """`20 R6` and `Ø20 c1` can be a class, or a size and a radius or chamfer beside it."""
    usual = _GRADES_OF_R if class_.letters == "R" else _GRADES_OF_SMALL_R
    radius = class_.letters in ("R", "r") and (kind is None or class_.grade not in usual)
    if radius or (class_.letters == "c" and class_.grade in _CHAMFER_GRADES):
        raise CalloutError(
            f"{class_.name} can be a tolerance class or a size of its own",
            *class_.span,
            "limits for the class, a semicolon before it for a radius or a chamfer",
        )


def _thread_like(class_: ToleranceClass, nominal: Amount) -> None:
    """`Ø6.8 M8` is a tapping hole and its thread, not the class M8 of a 6.8 mm hole."""
    if class_.letters == "M" and int(class_.grade) >= nominal.value:
        raise CalloutError(
            f"{class_.name} can be a thread or a tolerance class",
            *class_.span,
            f"the pitch for a thread ({class_.name}x1), a count as 4x {class_.name}, or a line of its own",
        )
