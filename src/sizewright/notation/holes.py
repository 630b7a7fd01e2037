"""Holes and cut-outs: the rules of `holes.lark`, and which numbers beside a form are its diameter, depth or width."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from sizewright.notation.amounts import as_angle, is_angle
from sizewright.notation.build import span_of
from sizewright.notation.forms import FORM_EXAMPLES, FORM_MARKED, FORM_ORDER, drill_name, form_of, process_name
from sizewright.notation.kinds import DEPENDENT_KINDS
from sizewright.notation.measures import Weighed, is_angle_measure
from sizewright.notation.model import Amount
from sizewright.notation.neighbours import Item
from sizewright.notation.pieces import Mark, Piece, RawSize, Tail
from sizewright.notation.tokens import Token
from sizewright.text.errors import CalloutError, with_article

_JOINED = ("BY", "TO_MARK")
_BOTH = "both sides"
# The angles that countersinks have (common practice).
_ANGLES = (60, 75, 82, 90, 100, 110, 118, 120)


class HolesBuilder:
    """Rules of `holes.lark`."""

    def process(self, children: list[Token]) -> Tail:
        return Tail("process", process_name(children[0]), span_of(children[0]))

    def drill_note(self, children: list[Token]) -> Tail:
        name = re.sub(r"[() ]|drill", "", children[0], flags=re.IGNORECASE)
        return Tail("drill", drill_name(name), span_of(children[0]))

    def drilled(self, children: list[Any]) -> RawSize:
        process = children[0] if children[0].type == "PROCESS" else None
        name, *tails = children if process is None else children[1:]
        tails.insert(0, Tail("drill", drill_name(name), span_of(name)))
        said = process is not None or any(tail.name == "process" for tail in tails)
        if "drill" in name.lower() or not said:  # in X DRILL + TAP M10 the thread has taken the word
            tails.append(Tail("process", "drill", span_of(name)))
        if process is not None:
            tails.append(self.process([process]))
        return RawSize(None, [], tails, span=span_of(*children))

    def coordinate(self, children: list[Any]) -> RawSize:
        axis, amount, *tails = children
        return RawSize(amount, [Mark(f"AXIS {axis[0]}", span_of(axis))], tails, span=span_of(*children))


def part_angles(piece: Piece) -> Iterator[Piece]:
    """`CSK Ø7/90`: after a countersink's diameter and a stroke stands its angle, whose mark may be missing."""
    raw = piece.body
    yield piece
    if not isinstance(raw, RawSize):
        return
    at = next((n for n, tail in enumerate(raw.tails) if _second_number(raw, tail)), None)
    if at is None:
        return
    tail = raw.tails[at]
    amount: Amount = as_angle(tail.value) if tail.name == "slash_limit" else tail.value
    marks = [mark for mark in raw.marks if mark[0].startswith("AXIS")]
    second = RawSize(amount, marks, raw.tails[at + 1 :], span=tail.span)
    raw.tails = raw.tails[:at]
    yield Piece(second, None if marks else "TO_MARK")


def _second_number(raw: RawSize, tail: Tail) -> bool:
    """CSK Ø7/90, 82° CSK TO .385, Z +77.09 / -70.91: what looks like a limit or a deviation is a number of its own."""
    words = [name for name, _ in raw.marks]
    if any(name.startswith("AXIS") for name in words):
        return tail.name == "deviation" and sum(each.name == "deviation" for each in raw.tails) == 1
    sunk = "FORM countersink" in words or any(_is_sink(each) for each in raw.tails)
    if not sunk or raw.amount is None:
        return False
    if tail.name == "slash_limit":
        return tail.value.value in _ANGLES
    return tail.name == "to_limit" and is_angle(raw.amount) is not is_angle(tail.value)


def _is_sink(tail: Tail) -> bool:
    return tail.name == "mark_after" and tail.value[0] == "HOLE_FORM_AFTER" and form_of(tail.value[1]) == "countersink"


def group_forms(items: list[Item]) -> None:
    """Tell each number beside a form what it is; numbers in order, marked numbers by their mark.

    Raises:
        CalloutError: more numbers than the form has, or a mark that it has not.
    """
    for at, item in enumerate(items):
        weighed = item.feature
        if isinstance(weighed, Weighed) and weighed.form and item.group is None:
            _group(items, at, weighed.form)
    for item in items:
        if isinstance(item.feature, Weighed) and item.feature.form and item.group is None:
            raise CalloutError("a second form beside the first", *item.span, "a semicolon between two")


def _group(items: list[Item], at: int, form: str) -> None:
    first = at
    while items[first].feature.form_after and items[first].separator in _JOINED and _free(items[first - 1], form):  # type: ignore[union-attr]
        first -= 1
    if first == at and _stands_before(items[first - 1] if first else None, items[first]):
        first -= 1
    last = at
    while last + 1 < len(items) and (_goes_on(items[last + 1], form) or _is_mouth(items[first : last + 2], form)):
        last += 1
    members = items[first : last + 1]
    order = list(FORM_ORDER[form])
    taken: set[str] = set()
    mouth = _weighed(members[0]).measure.nominal
    for item in members:
        _name(item, form, order, taken, mouth)
    for item in members[1:]:
        item.follows = True
    if any(_BOTH in _weighed(item).notes for item in members):
        for item in members:
            weighed = _weighed(item)
            weighed.notes = tuple(dict.fromkeys((*weighed.notes, _BOTH)))


def _stands_before(before: Item | None, item: Item) -> bool:
    """`6 WIDE SLOT 20 LONG`, `82° CSK Ø10`: the width or the angle stands before the word."""
    if before is None or before.group is not None or item.separator is not None or _weighed(item).form_after:
        return False
    sunk = _weighed(item).form == "countersink" and isinstance(before.feature, Weighed) and before.feature.form is None
    return before.kind == "wide" or (sunk and is_angle_measure(_weighed(before).measure))


def _weighed(item: Item) -> Weighed:
    assert isinstance(item.feature, Weighed)
    return item.feature


def _free(item: Item, form: str) -> bool:
    return isinstance(item.feature, Weighed) and item.group is None and item.feature.form in (None, form)


def _goes_on(item: Item, form: str) -> bool:
    """Whether an item is another number of the form before it: after an x, or with a mark that only it can have."""
    if not isinstance(item.feature, Weighed) or item.feature.form not in (None, form) or item.count_before is not None:
        return False
    if item.separator in _JOINED:
        return True
    if item.separator == "SEMICOLON" or item.feature.form:
        return False
    return item.kind in DEPENDENT_KINDS or (is_angle_measure(item.feature.measure) and (form, "angle") in FORM_MARKED)


def _is_mouth(members: list[Item], form: str) -> bool:
    """`CSK 90° Ø12`: after the angle of a countersink its diameter."""
    *before, item = members
    beside = form == "countersink" and item.separator is None and item.kind == "diameter" and item.count_before is None
    return beside and all(is_angle_measure(_weighed(each).measure) for each in before)


def _name(item: Item, form: str, order: list[str], taken: set[str], mouth: Amount | None) -> None:
    weighed = _weighed(item)
    mark = "angle" if is_angle_measure(weighed.measure) else weighed.kind
    kind = FORM_MARKED.get((form, mark)) if mark else next(iter(order), None)
    if kind is None:
        what = with_article(mark) if mark else "one number more"
        raise CalloutError(f"{what} beside a {form}", *item.span, FORM_EXAMPLES[form])
    nominal = weighed.measure.nominal
    if kind == "countersink depth" and mark is None and nominal is not None and _may_be_angle(nominal, mouth):
        hint = f"{nominal.value}°, or {nominal.value} DEEP"
        raise CalloutError(f"{nominal.value} is an angle without its mark, or a depth", *item.span, hint)
    if kind in order:
        order.remove(kind)
    elif kind in taken:
        raise CalloutError(f"a second {kind}", *item.span, FORM_EXAMPLES[form])
    taken.add(kind)
    item.group = kind


def _may_be_angle(nominal: Amount, mouth: Amount | None) -> bool:
    """A bare number beside a countersink: a usual angle, or more than the mouth, which no countersink is deep."""
    return nominal.value in _ANGLES or (mouth is not None and nominal.value >= mouth.value)
