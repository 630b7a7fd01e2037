"""An answer in plain words, for the machinist: what it is, both limits in both units, how to check it, and why."""

from __future__ import annotations

import textwrap

from sizewright.instruments.choose import choose
from sizewright.instruments.features import FORM_FEATURES
from sizewright.instruments.shelf import Crib
from sizewright.output.pictures.fit_text import fit_text
from sizewright.output.pictures.zones import zones_of
from sizewright.resolve.characteristic import Answer, Characteristic, Limits
from sizewright.resolve.describe import aim, describe, shown, status_words, with_unit
from sizewright.resolve.gauging import gauge_words, gaugings
from sizewright.resolve.units import OTHER_UNIT, inward
from sizewright.text.caret import caret_lines, visible

_WIDTH = 80
_LABEL = 14


def explain(given: Answer, crib: Crib) -> str:
    """The answer as text of at most 80 columns, ending in a blank line."""
    if given.error is not None:
        return "\n".join(["NOT READ", *caret_lines(given.callout, given.error), ""])
    lines = [visible(line) for line in given.callout.split("\n")]
    for made in given.characteristics:
        lines += _characteristic(made, crib)
    for zones in zones_of(given.characteristics):
        if zones.fit is not None:
            lines += ["", *(f"    {line}".rstrip() for line in fit_text(zones)), ""]
    for remark in given.remarks:
        label = "warning" if remark.level == "warning" else "note"
        place = f" (column {remark.column})" if remark.column else ""
        lines += _field(label, visible(remark.text) + place)
    return "\n".join([*lines, ""])


def _characteristic(made: Characteristic, crib: Crib) -> list[str]:
    lines = [f"  {line}" for line in textwrap.wrap(describe(made), _WIDTH - 2)]
    words = status_words(made)
    if words:
        lines += _field("limits", words)
    for limits in made.limits:
        lines += _limits(limits, made.unit, named=len(made.limits) > 1)
    if made.either is not None:
        for side in ("internal", "external"):
            for limits in getattr(made.either, side):
                lines += _limits(limits, made.unit, named=True, side=f"{side} ")
    choice = choose(made, crib)
    if choice.instrument is not None:
        lines += _field("check with", f"{choice.instrument.name}: {choice.why}")
    elif made.limits or made.either:
        lines += _field("check", choice.why)
    if made.kind in FORM_FEATURES:
        lines += _geometric_method(made)
    elif choice.method and made.limits:
        lines += _field("how", choice.method)
    for gauging in gaugings(made):
        lines += _field("gauge", gauge_words(gauging))
    if made.kind == "thread":
        from sizewright.instruments.thread_checks import thread_checks

        for check in thread_checks(made, crib):
            lines += _field(check.label, check.text)
    for reason in made.why:
        lines += _field("because", reason)
    return lines


def _geometric_method(made: Characteristic) -> list[str]:
    """How the part is set up and read: what an instrument alone does not tell of a form or a place."""
    from sizewright.instruments.geometric import method_of

    method = method_of(made)
    return [] if method is None else _field("how", method.text) + _field("beware", method.beware)


def _limits(limits: Limits, unit: str, *, named: bool, side: str = "") -> list[str]:
    name = f"{side}{limits.of} " if named else ""
    other = OTHER_UNIT.get(unit)
    lines: list[str] = []
    converted = shown(inward(limits, unit, other)) if other else (None, None)
    for label, value, beside in zip(("lower limit", "upper limit"), shown(limits), converted, strict=True):
        text = "none" if value is None else with_unit(value, unit)
        if beside is not None and other is not None:
            text = f"{text:<16}({with_unit(beside, other)}, rounded inward)"
        lines += _field(f"{name}{label}", text)
    middle = aim(limits)
    if middle is not None and limits.width is not None:
        lines += _field("aim for", f"{with_unit(middle, unit)}, tolerance {with_unit(limits.width, unit)}")
    return lines


def _field(label: str, text: str) -> list[str]:
    head = f"    {label}".ljust(4 + _LABEL)
    if len(head) > 4 + _LABEL:
        head += " "
    return textwrap.wrap(
        text, _WIDTH, initial_indent=head, subsequent_indent=" " * (4 + _LABEL), break_long_words=False
    ) or [head]
