"""Geometric tolerances and datums: from a frame to a zone with its limits, its datums, and what contradicts.

Zones after ISO 1101, datums after ISO 5459, both also in ASME Y14.5; which characteristic takes what is a table
(`resolve/geometry_rules.py`).
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from sizewright.notation.model import (
    Amount,
    DatumFeature,
    DatumReference,
    DatumTarget,
    Feature,
    Frame,
    FrameModifier,
    Portion,
    Repeat,
    Span,
)
from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.resolve.geometry_rules import DATUM_LETTERS_TO_AVOID, MODIFIER_WORDS, RULES, Rule
from sizewright.resolve.geometry_size import Before, of_size
from sizewright.resolve.scope import Scope
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import MM_PER_INCH, plain

# A zone wider than this is more likely a size that lost its frame, or a lost decimal mark.
_WIDE_MM = Decimal(10)


def resolve_geometry(
    feature: Frame | DatumFeature | DatumTarget, before: Before, scope: Scope
) -> Iterator[Characteristic]:
    """The characteristic of a frame or a datum; `before` are the features typed before it with what they came to.

    Raises:
        CalloutError: what is typed contradicts the characteristic.
    """
    if isinstance(feature, Frame):
        yield _frame(feature, before, scope)
    elif isinstance(feature, DatumFeature):
        _check_letter(feature.letter, feature.span, scope)
        yield _named("datum feature", feature.letter, feature.repeat, "names the feature that frames refer to")
    else:
        yield _target(feature, scope)


def _named(kind: str, label: str, repeat: Repeat, said: str) -> Characteristic:
    why = (f"{said} (ISO 5459, ASME Y14.5)",)
    return Characteristic(kind, "none", Status.UNTOLERANCED, count=repeat.count, why=why, extra={"label": label})


def _target(target: DatumTarget, scope: Scope) -> Characteristic:
    made = _named("datum target", target.label, target.repeat, "a place where the part is held for its datum")
    if target.area is None:
        return made
    unit = scope.unit_of(target.area.first)
    extra = {**made.extra, "area": _portion_text(target.area)}
    return made._replace(unit=unit, nominal=target.area.first.value, extra=extra)


# ---- frames ----------------------------------------------------------------------------------------------------------


def _frame(frame: Frame, before: Before, scope: Scope) -> Characteristic:
    rule = RULES[frame.characteristic]
    unit = scope.unit_of(frame.zone)
    zone = frame.zone.value
    assert isinstance(zone, Decimal)
    _check_zone(frame, rule, zone, unit, scope)
    _check_modifiers(frame, rule, scope)
    _check_datums(frame, rule, scope)
    _check_segment(frame, before, scope)
    sized = of_size(frame, before, unit, scope)
    why = (_zone_why(frame, rule, scope), *_why(frame), *sized)
    return Characteristic(
        frame.characteristic,
        unit,
        Status.TOLERANCED,
        limits=(Limits("zone", Decimal(0), zone),),
        count=frame.repeat.count,
        why=why,
        extra=_extra(frame, rule),
    )


def _extra(frame: Frame, rule: Rule) -> dict[str, object]:
    extra: dict[str, object] = {
        "zone_shape": _shape(frame, rule),
        "datums": [datum.name for datum in frame.datums],
        "modifiers": [_modifier_text(modifier) for modifier in frame.modifiers],
    }
    if frame.portion is not None:
        extra["per_unit"] = _portion_text(frame.portion)
    if frame.scope:
        extra["scope"] = frame.scope
    if frame.segment[1] > 1:
        extra["segment"] = f"{frame.segment[0]} of {frame.segment[1]}"
    return extra


def _shape(frame: Frame, rule: Rule) -> str:
    if frame.shape:
        return "sphere" if frame.shape == "spherical diameter" else "diameter"
    return rule.zone


def _modifier_text(modifier: FrameModifier) -> str:
    if modifier.amount is None:
        return modifier.name
    value = plain(modifier.amount.value)
    signed = f"+{value}" if modifier.name in ("UZ", "OZ") and modifier.amount.value > 0 else value
    return f"{modifier.name} {signed}"


def _portion_text(portion: Portion) -> str:
    first = plain(portion.first.value)
    if portion.second is not None:
        return f"{first}x{plain(portion.second.value)}"
    return f"Ø{first}" if portion.round else first


# ---- reasons ---------------------------------------------------------------------------------------------------------


def _zone_why(frame: Frame, rule: Rule, scope: Scope) -> str:
    typed = scope.typed(frame.zone)
    if frame.shape == "diameter":
        where = f"a cylinder (or, in a section, a circle) of diameter {typed}"
        return f"zone: the {rule.derived} lies in {where} (ISO 1101, ASME Y14.5)"
    if frame.shape == "spherical diameter":
        return f"zone: the centre point lies in a sphere of diameter {typed} (ISO 1101, ASME Y14.5)"
    said = f"zone: {rule.words.format(zone=typed)} (ISO 1101, ASME Y14.5)"
    return said + ("; typed as a full indicator movement" if frame.indicator else "")


def _why(frame: Frame) -> Iterator[str]:
    if frame.portion is not None:
        yield f"it holds for any part of the feature of {_portion_text(frame.portion)}, wherever it is taken"
    for modifier in frame.modifiers:
        words = MODIFIER_WORDS.get(modifier.name)
        if words:
            amount = "" if modifier.amount is None else f" {plain(modifier.amount.value)}"
            yield f"({modifier.name}{amount}) {words}"
    if frame.datums:
        yield _datum_why(frame.datums)
    if frame.scope:
        yield f"{frame.scope}: the zone runs along all of what that names"
    for note in frame.notes:
        yield f"typed beside it: {note}"


def _datum_why(datums: tuple[DatumReference, ...]) -> str:
    order = ("primary", "secondary", "tertiary")
    named = [f"{order[place] if place < 3 else 'further'} {datum.name}" for place, datum in enumerate(datums)]
    text = "datums in their order: " + ", ".join(named) if len(datums) > 1 else f"datum {datums[0].name}"
    if any(len(datum.elements) > 1 for datum in datums):
        text += "; letters joined by a dash make one common datum"
    movable = {m for datum in datums for each in datum.elements for m in each.modifiers} | {
        m for datum in datums for m in datum.modifiers
    }
    if movable & {"M", "L"}:
        text += "; a datum with (M) or (L) may shift within its boundary, which is not the zone growing"
    return text


# ---- what contradicts ------------------------------------------------------------------------------------------------


def _check_zone(frame: Frame, rule: Rule, zone: Decimal, unit: str, scope: Scope) -> None:
    names = {modifier.name for modifier in frame.modifiers}
    if frame.shape and frame.shape not in rule.marks:
        raise CalloutError(
            f"a zone with {'SØ' if frame.shape.startswith('s') else 'Ø'} on {frame.characteristic}",
            *frame.zone.span,
            f"no mark before it: the zone is {rule.zone}",
        )
    if zone == 0 and not names & {"M", "L"}:
        raise CalloutError("a zone of 0 without (M) or (L)", *frame.zone.span, "Ø0(M): all of it is bonus")
    if zone * (MM_PER_INCH if unit == "inch" else 1) > _WIDE_MM:
        scope.warn(
            f"a zone of {scope.typed(frame.zone)} {unit} is very wide: is a decimal mark missing?", frame.zone.span
        )
    if frame.indicator and rule.family != "run-out":
        scope.warn(
            f"TIR or FIM beside {frame.characteristic}: an indicator over one turn shows run-out, "
            "which form and offset both enter; the number is taken as typed",
            frame.span,
        )
    if frame.characteristic == "position" and not frame.shape:
        scope.info(
            "no Ø before it: a zone between two planes, in the direction that the drawing shows", frame.zone.span
        )
    for amount in _further_lengths(frame):
        if amount.unit is not None and amount.unit != unit:
            if frame.zone.unit is None:
                typed = scope.typed(frame.zone)
                raise CalloutError(
                    "a unit on one number of a frame alone",
                    *amount.span,
                    f"{typed}{'in' if unit == 'mm' else 'mm'} too",
                )
            scope.warn("two units in one frame", amount.span)


def _further_lengths(frame: Frame) -> Iterator[Amount]:
    if frame.portion is not None:
        yield frame.portion.first
    for modifier in frame.modifiers:
        if modifier.amount is not None:
            yield modifier.amount


def _check_modifiers(frame: Frame, rule: Rule, scope: Scope) -> None:
    names = {modifier.name: modifier for modifier in frame.modifiers}
    for name in names:
        if name in "MLPTU" and name not in rule.modifiers:
            raise CalloutError(
                f"({name}) on {frame.characteristic}, which takes none", *_at(frame), rule.without.get(name, "")
            )
    if "R" in names and not {"M", "L"} & set(names):
        raise CalloutError("(R) without (M) or (L)", *_at(frame), "(M)(R): reciprocity adds to them (ISO 2692)")
    if {"M", "L"} & set(names) and rule.material_doubtful(scope.context.manner):
        scope.warn(
            f"ASME Y14.5 has no (M) or (L) on {frame.characteristic}: count no bonus before that is settled",
            _at(frame),
        )
    if "P" in names and names["P"].amount is None:
        scope.warn("(P) without its height: the drawing has to show it", _at(frame))
    unequal = names.get("U")
    if unequal is not None and unequal.amount is not None:
        value, zone = unequal.amount.value, frame.zone.value
        if not 0 <= value <= zone:
            raise CalloutError(
                "the part outside the true profile is more than the zone", *unequal.amount.span, "0 to the zone's width"
            )
    if frame.condition_last:
        last = frame.datums[-1].name if frame.datums else ""
        name = next((n for n in names if n in "MLS"), "M")
        scope.warn(
            f"the condition typed last is taken for the feature, ({name}) after its tolerance, not for datum {last}; "
            f"{last}({name}) for the datum",
            frame.modifier_span,
        )


def _at(frame: Frame) -> Span:
    return frame.modifier_span if frame.modifier_span != (0, 0) else frame.span


def _check_datums(frame: Frame, rule: Rule, scope: Scope) -> None:
    letters = [each for datum in frame.datums for each in datum.elements]
    if letters and rule.datums == "none":
        raise CalloutError(
            f"{frame.characteristic} is a form: it refers to no datum",
            *letters[0].span,
            f"{frame.characteristic} without it, or {rule.instead}",
        )
    seen: dict[str, Span] = {}
    for each in letters:
        if each.letter in seen:
            raise CalloutError(f"datum {each.letter} twice", *each.span, "each datum once")
        seen[each.letter] = each.span
        _check_letter(each.letter, each.span, scope)
    if len(frame.datums) > 3:
        scope.warn("more than three datums: a part has no more to be located by", frame.span)
    if not letters and rule.datums == "needed":
        scope.warn(f"{frame.characteristic} without a datum: what it is measured from is not told", frame.span)
    if not letters and rule.datums == "usual" and frame.segment[0] == 1:
        scope.warn(
            f"{frame.characteristic} without a datum holds features to each other alone, not to the part", frame.span
        )


def _check_letter(letter: str, span: Span, scope: Scope) -> None:
    if letter[0] in DATUM_LETTERS_TO_AVOID:
        scope.warn(f"datum {letter}: I, O and Q are not used for datums, they look like figures (ASME Y14.5)", span)


def _check_segment(frame: Frame, before: Before, scope: Scope) -> None:
    place, height = frame.segment
    if place == 1:
        return
    above = next((feature for feature, _ in reversed(before) if isinstance(feature, Frame)), None)
    if above is None:
        return
    _check_tighter(frame, above, scope)
    letters = [datum.name[:1] for datum in frame.datums]
    if not frame.shared_symbol:
        scope.info(
            f"{height} frames with the mark typed in each: read as single segments, each a requirement of its own; "
            "under one mark they are composite, and the lower one holds no location to its datums (ASME Y14.5)",
            frame.span,
        )
    elif letters != [datum.name[:1] for datum in above.datums][: len(letters)]:
        scope.warn(
            "the datums of a lower segment repeat the first ones above it, in their order (ASME Y14.5)", frame.span
        )


def _check_tighter(frame: Frame, above: Feature, scope: Scope) -> None:
    assert isinstance(above, Frame)
    one, two = above.zone.value, frame.zone.value
    if above.zone.unit != frame.zone.unit or two < one or above.portion != frame.portion:
        return
    text = f"the lower segment is no tighter than the one above it ({scope.typed(above.zone)})"
    if frame.shared_symbol:
        raise CalloutError(text, *frame.zone.span, "the wider zone on top")
    scope.warn(text, frame.zone.span)
