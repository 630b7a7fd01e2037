"""Edges, and notes that hold everywhere: the size in them has limits as any size has, and no count."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal

from sizewright.notation.model import Chamfer, Size
from sizewright.notation.model_surfaces import Edge, EdgeNote, ForAll
from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.resolve.scope import Scope
from sizewright.resolve.sizes import resolve_chamfer, resolve_size
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import plain

_FAR = Decimal("0.1")  # inches: no edge of undefined shape is broken further
# A corner R5 is one; corners R5, all corners, and what holds unless otherwise specified are as many as there are.
_PLURAL = re.compile(
    r"\b(?:all|any|every|unless|other|fillets|rounds|radii|corners|edges|bends|chamfers|draft|un\w+ed|general)\b"
)


def resolve_edge(feature: EdgeNote | ForAll | Edge, scope: Scope) -> Iterator[Characteristic]:
    """The characteristics of a note on edges, of one that holds everywhere, or of an edge after ISO 13715."""
    match feature:
        case EdgeNote():
            yield _broken(feature, scope)
        case ForAll():
            yield from _everywhere(feature, scope)
        case Edge():
            yield _edge(feature, scope)


def _broken(note: EdgeNote, scope: Scope) -> Characteristic:
    said = f"as typed: {' '.join((note.words, *note.after))}"
    if note.size is None:
        open_ended = (said, "no size typed: no burr may stay, how far the edge is broken is not limited")
        return Characteristic(
            "edge break", scope.context.unit, Status.UNTOLERANCED, count=note.repeat.count, why=open_ended
        )
    chamfer = note.size if isinstance(note.size, Chamfer) else Chamfer(note.size.measure)
    made = next(each for each in resolve_chamfer(chamfer, scope) if each.kind == "chamfer size")
    why: tuple[str, ...] = (*made.why, said)
    if chamfer.angle is not None and chamfer.angle.nominal is not None:
        why += (f"at {scope.typed(chamfer.angle.nominal)}",)
    limits = made.limits
    if limits and limits[0].lower is None:
        why += ("from a trace of a break up to the limit, without a burr",)
    return made._replace(kind="edge break", count=note.repeat.count, why=why)


def _everywhere(note: ForAll, scope: Scope) -> Iterator[Characteristic]:
    said = f"as typed: {' '.join((note.words, *note.after))}"
    size = note.size
    made = resolve_size(size, None, scope) if isinstance(size, Size) else resolve_chamfer(size, scope)
    count = None if _PLURAL.search(said) else 1
    for each in made:
        yield each._replace(count=count, why=(*each.why, said))


def _edge(edge: Edge, scope: Scope) -> Characteristic:
    unit = edge.unit or scope.context.unit
    far = max(abs(edge.upper), abs(edge.lower))
    if unit == "inch" and edge.unit is None and far > _FAR:
        raise CalloutError(
            f"an edge of {plain(far)} on a sheet in inches: inches, or the millimetres of ISO 13715",
            *edge.span,
            f"ISO 13715 -{plain(far)} mm, or in",
        )
    why = [f"ISO 13715: {_sense(edge)}"]
    if edge.place:
        why.append(f"{edge.place} edges")
    if 0 in (edge.upper, edge.lower):
        why.append("one number typed: the other limit is 0")
    return Characteristic(
        "edge",
        unit,
        Status.TOLERANCED,
        limits=(Limits("size", edge.lower, edge.upper),),
        count=edge.repeat.count,
        why=tuple(why),
    )


def _sense(edge: Edge) -> str:
    if edge.upper <= 0:
        return f"material is removed, {plain(-edge.upper)} to {plain(-edge.lower)}"
    if edge.lower >= 0:
        return f"material may stand over, {plain(edge.lower)} to {plain(edge.upper)}"
    return f"removed by up to {plain(-edge.lower)}, or standing over by up to {plain(edge.upper)}"
