"""From text to an answer, and the answer as the JSON object that programs read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from sizewright.notation.forms import FORM_KINDS
from sizewright.notation.model import (
    Callout,
    Chamfer,
    DatumFeature,
    DatumTarget,
    Feature,
    Form,
    Frame,
    GeneralNote,
    Size,
    Thread,
    UnitsNote,
)
from sizewright.notation.read import placed, read_callout
from sizewright.resolve.characteristic import Answer, Characteristic, Limits, Remark
from sizewright.resolve.context import Context
from sizewright.resolve.scope import Scope
from sizewright.resolve.sizes import resolve_chamfer, resolve_size
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import Number, plain

Resolved = Sequence[tuple[Feature, tuple[Characteristic, ...]]]


def answer(typed: str, context: Context) -> Answer:
    """Read and resolve one callout; a callout that does not read gives an answer with an error, never an exception."""
    try:
        reading = read_callout(typed)
    except CalloutError as error:
        return Answer(typed, error=error)
    scope = Scope(context, reading.source.folded)
    try:
        characteristics = tuple(_resolve(reading.callout, scope))
    except CalloutError as error:
        return Answer(typed, error=placed(error, reading.source))
    remarks = [Remark(n.level, n.text, None if n.offset is None else n.offset + 1) for n in reading.notes]
    for level, text, offset in scope.remarks:
        column = None if offset is None else reading.source.at(offset) + 1
        remarks.append(Remark("warning" if level == "warning" else "info", text, column))
    return Answer(typed, characteristics, tuple(remarks))


def _resolve(callout: Callout, scope: Scope) -> Iterator[Characteristic]:
    features = callout.features
    if len(features) > 1 and any(isinstance(feature, Thread) for feature in features):
        from sizewright.resolve.thread_depths import check_depths

        check_depths(features, scope)
    made: list[tuple[Feature, tuple[Characteristic, ...]]] = []
    for feature, following in zip(features, (*features[1:], None), strict=True):
        resolved = tuple(_feature(feature, following, made, scope))
        made.append((feature, resolved))
        yield from resolved


# Modifiers of a size that are names of drills too.
_DRILL_LIKE = frozenset({"E", "F", "I"})


def _feature(feature: Feature, following: Feature | None, before: Resolved, scope: Scope) -> Iterable[Characteristic]:
    """What `feature` asks for; `following` is the one after it, `before` those before it with what they came to."""
    match feature:
        case Size() if feature.drill or feature.kind in FORM_KINDS or feature.kind == "bolt circle diameter":
            from sizewright.resolve.holes import resolve_hole

            return resolve_hole(feature, following, scope)
        case Size():
            if _DRILL_LIKE.intersection(feature.modifiers):
                from sizewright.resolve.holes import refuse_drill_letter

                refuse_drill_letter(feature, scope)
            return _taper_pipe(feature, scope) or resolve_size(feature, following, scope)
        case Chamfer():
            return resolve_chamfer(feature, scope)
        case Thread():
            from sizewright.resolve.threads import resolve_thread

            return resolve_thread(feature, following, scope)
        case Frame() | DatumFeature() | DatumTarget():
            from sizewright.resolve.geometry import resolve_geometry

            return resolve_geometry(feature, before, scope)
        case GeneralNote() | UnitsNote():
            from sizewright.resolve.notes import resolve_note

            return resolve_note(feature, scope)
        case _:
            from sizewright.resolve.surfaces import resolve_surface

            return resolve_surface(feature, scope)


def _taper_pipe(size: Size, scope: Scope) -> Iterable[Characteristic] | None:
    """`R 1/4` is a radius in inches and a taper pipe thread on a metric sheet."""
    nominal = size.measure.nominal
    if size.kind != "radius" or nominal is None or nominal.form is not Form.FRACTION:
        return None
    from sizewright.resolve.threads import resolve_thread, taper_of_radius

    thread = taper_of_radius(size, scope)
    return None if thread is None else resolve_thread(thread, None, scope)


def answer_json(given: Answer) -> dict[str, Any]:
    """The answer as a JSON object; its keys are a promise to other programs."""
    error = given.error
    return {
        "callout": given.callout,
        "characteristics": [characteristic_json(c) for c in given.characteristics],
        "remarks": [{"level": r.level, "text": r.text, "column": r.column} for r in given.remarks],
        "error": None
        if error is None
        else {"message": error.message, "column": error.column, "length": error.length, "hint": error.hint},
    }


def characteristic_json(made: Characteristic) -> dict[str, Any]:
    """One characteristic as a JSON object: numbers are strings in plain decimal notation."""
    result: dict[str, Any] = {
        "kind": made.kind,
        "side": made.side,
        "count": made.count,
        "unit": made.unit,
        "nominal": _number(made.nominal),
        "status": made.status.value,
        "limits": [_limits(limits) for limits in made.limits],
        "why": list(made.why),
    }
    if made.class_ is not None:
        result["class"] = made.class_
    if made.fit is not None:
        result["fit"] = {
            "type": made.fit.type,
            "clearance_max": plain(made.fit.clearance_max),
            "clearance_min": plain(made.fit.clearance_min),
        }
    if made.either is not None:
        result["either"] = {
            "internal": [_limits(limits) for limits in made.either.internal],
            "external": [_limits(limits) for limits in made.either.external],
        }
    result.update(made.extra)
    return result


def _limits(limits: Limits) -> dict[str, str | None]:
    return {"of": limits.of, "lower": _number(limits.lower), "upper": _number(limits.upper)}


def _number(value: Number | None) -> str | None:
    return None if value is None else plain(value)
