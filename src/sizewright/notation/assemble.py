"""From pieces to features: neighbours are joined (a chamfer from a size and an angle) and counts are spread."""

from __future__ import annotations

from dataclasses import dataclass, replace

from sizewright.notation.measures import Weighed, is_angle_measure, is_bare, weigh
from sizewright.notation.model import Callout, Chamfer, Feature, Note, Repeat, Size, Span
from sizewright.notation.pieces import Piece, RawSize, Tail
from sizewright.text.errors import CalloutError


@dataclass(slots=True, eq=False, repr=False)
class _Item:
    """A feature on its way, with what was typed about how often it occurs."""

    feature: Weighed | Feature
    separator: str | None
    places: Tail | None
    typical: bool
    places_after: bool


def assemble(leading: list[Tail], pieces: list[Piece], text: str) -> tuple[Callout, list[Note]]:
    """The callout that `pieces` make, and remarks on how it was read.

    Raises:
        CalloutError: pieces that do not belong together, at the piece.
    """
    remarks: list[Note] = []
    items = [_item(piece, text, remarks) for piece in pieces]
    for tail in leading:
        if tail.name == "typical":
            items[0].typical = True
        elif items[0].places is not None:
            raise CalloutError("a second count", *tail.span, "one count for a feature")
        else:
            items[0].places, items[0].places_after = tail, False
    features: list[Feature] = []
    repeats = _spread(items)
    position = 0
    while position < len(items):
        taken, feature = _join(items, position, repeats[position], remarks)
        features.append(feature)
        position += taken
    return Callout(tuple(features)), remarks


def _item(piece: Piece, text: str, remarks: list[Note]) -> _Item:
    if not isinstance(piece.body, RawSize):
        return _Item(piece.body, piece.separator, piece.count, False, False)
    weighed = weigh(piece.body, text, remarks)
    if piece.count is not None and weighed.places is not None:
        raise CalloutError("a second count", *weighed.places.span, "one count for a feature")
    return _Item(weighed, piece.separator, piece.count or weighed.places, weighed.typical, piece.count is None)


def _spread(items: list[_Item]) -> list[Repeat]:
    """The count of each item: one typed first holds on until another; one typed last holds for all before it."""
    typical = any(item.typical for item in items)
    repeats: list[Repeat | None] = []
    running: Repeat | None = None
    for item in items:
        if item.places is not None:
            count, holes = item.places.value
            running = Repeat(count, typical, holes)
            if item.places_after:
                repeats = [running if r is None else r for r in repeats]
        repeats.append(running)
    default = Repeat(None, typical=True) if typical else Repeat()
    return [default if r is None else r for r in repeats]


def _join(items: list[_Item], at: int, repeat: Repeat, remarks: list[Note]) -> tuple[int, Feature]:
    """The feature that begins at item `at`, and how many items it takes."""
    item = items[at]
    if not isinstance(item.feature, Weighed):
        return 1, item.feature
    this = item.feature
    if at > 0:
        _check_neighbour(items, at)
    following = items[at + 1] if at + 1 < len(items) else None
    if following is not None and following.separator == "BY" and isinstance(following.feature, Weighed):
        joined = _by(this, following.feature, repeat, remarks)
        if joined is not None:
            if at + 2 < len(items) and items[at + 2].separator == "BY" and _is_plain(items[at + 2]):
                raise CalloutError("a third number after an x", *_span(items[at + 2]))
            return 2, joined
    return 1, _single(this, repeat)


def _check_neighbour(items: list[_Item], at: int) -> None:
    """A bare number after another feature needs a line or a semicolon between them, or a mark that tells what it is."""
    item = items[at]
    if item.separator in ("LINE", "SEMICOLON"):
        return
    assert isinstance(item.feature, Weighed)
    span = item.feature.span
    if item.separator == "BY" and item.feature.kind != "depth":
        raise CalloutError("an x between sizes that do not go together", *span, "2 x 45°, 12 x 12 SQ, Ø10 x 20 DEEP")
    if not _is_plain(item):
        return
    if item.separator == "COMMA":
        raise CalloutError("a number after a comma", *span, "no blank after a decimal comma, or one size a line")
    raise CalloutError("two sizes side by side", *span, "one size a line, or a mark that tells what each is")


def _is_plain(item: _Item) -> bool:
    return isinstance(item.feature, Weighed) and item.feature.kind is None


def _span(item: _Item) -> Span:
    assert isinstance(item.feature, Weighed)
    return item.feature.span


def _by(first: Weighed, second: Weighed, repeat: Repeat, remarks: list[Note]) -> Feature | None:
    """What `first x second` is, or None where the x only parts a depth from what is before it."""
    chamfer_kinds = (None, "chamfer size")
    angles = is_angle_measure(first.measure), is_angle_measure(second.measure)
    notes = first.notes + second.notes
    if second.kind == "depth":
        return None
    if "square" in (first.kind, second.kind) and first.kind in (None, "square"):
        return _square(first, second, repeat)
    if first.kind not in chamfer_kinds or second.kind not in chamfer_kinds:
        return None
    if any(angles):
        if all(angles):
            raise CalloutError("an x between two angles", *second.span, "a size and an angle, as in 2 x 45°")
        size, angle = (first, second) if angles[1] else (second, first)
        return Chamfer(size.measure, angle.measure, None, angles[0], repeat=repeat, notes=notes)
    if first.kind is None and second.kind is None:
        _legs_or_count(first, second, remarks)
    return Chamfer(first.measure, None, second.measure, repeat=repeat, notes=notes)


def _square(first: Weighed, second: Weighed, repeat: Repeat) -> Size:
    one, two = first.measure.nominal, second.measure.nominal
    if one is None or two is None or one.value != two.value:
        raise CalloutError("a square whose sides differ", *second.span, "12 x 12 SQ")
    measure = second.measure if second.measure.tolerance else replace(second.measure, tolerance=first.measure.tolerance)
    return Size("square", measure, repeat, notes=first.notes + second.notes)


def _legs_or_count(first: Weighed, second: Weighed, remarks: list[Note]) -> None:
    """Two bare lengths about an x are the legs of a chamfer; a whole number before a toleranced one may be a count."""
    whole = is_bare(first.measure.nominal) and first.measure.tolerance is None
    if whole and second.measure.tolerance is not None:
        raise CalloutError(
            "the x can mean a count or a chamfer's two legs",
            first.span[0],
            second.span[1],
            "no blank before the x for a count (4x 25 ±0.1), CHAM before it for a chamfer",
        )
    if whole:
        remarks.append(
            Note("warning", "read as the two legs of a chamfer; for a count type no blank before the x", first.span[0])
        )


def _single(this: Weighed, repeat: Repeat) -> Feature:
    if this.kind == "chamfer size":
        return Chamfer(this.measure, letter_c=this.letter_c, repeat=repeat, notes=this.notes)
    kind = this.kind or "length"
    if is_angle_measure(this.measure):
        if this.kind is not None:
            raise CalloutError(f"an angle where a {this.kind} is meant", *this.span, "a length")
        kind = "angle"
    if this.total is not None and this.kind not in (None, "length"):
        raise CalloutError("a total after a size that is not a spacing", *this.total.span)
    if this.shorter_side is not None and kind != "angle":
        raise CalloutError("a shorter side belongs to an angle", *this.shorter_side.span, "30° (shorter side 40)")
    return Size(kind, this.measure, repeat, this.through, this.total, this.shorter_side, this.modifiers, this.notes)
