"""From pieces to features: neighbours are joined (a chamfer from a size and an angle) and counts are spread."""

from __future__ import annotations

from collections.abc import Iterator

from sizewright.notation.holes import group_forms, part_angles
from sizewright.notation.kinds import DEPENDENT_KINDS, PILOT_HOLE
from sizewright.notation.measures import Weighed, is_angle_measure, weigh
from sizewright.notation.model import (
    ONCE,
    Amount,
    Callout,
    Chamfer,
    Classed,
    Deviations,
    Feature,
    Frame,
    InchFit,
    Measure,
    Note,
    PlusMinus,
    Repeat,
    Repeated,
    Size,
    Span,
    Standing,
    Thread,
)
from sizewright.notation.neighbours import USUAL_ANGLES, Item, check_neighbours, check_turn, count_glued
from sizewright.notation.pairs import is_whole
from sizewright.notation.pieces import Piece, RawReady, RawSize, RawThread, Tail
from sizewright.notation.threads import claim_depths, part_threads, settle
from sizewright.text.errors import CalloutError

# Legs longer than this, in either unit, are more likely a slot, a pocket or a block than a chamfer.
_LONGEST_LEG = 10
# A whole number of these after an x is an angle without its mark far more often than a leg.
_RIGHT_ANGLE = 90
_OF_A_HOLE = ("counterbore", "countersink", "counterdrill", "spotface")


def assemble(leading: list[Tail], pieces: list[Piece], text: str) -> tuple[Callout, list[Note]]:
    """The callout that `pieces` make, and remarks on how it was read.

    Raises:
        CalloutError: pieces that do not belong together, at the piece.
    """
    _lead(leading, pieces)
    pieces = [each for piece in pieces for whole in part_angles(piece) for each in part_threads(whole)]
    remarks: list[Note] = []
    items = [item for piece in pieces for item in _items(piece, text)]
    count_glued(items, text, remarks)
    group_forms(items)
    for position in range(1, len(items)):
        check_neighbours(items[position - 1], items[position])
    _spread(items, remarks)
    features: list[Feature] = []
    position = 0
    while position < len(items):
        taken, feature = _join(items, position, text, remarks)
        features.append(feature)
        position += taken
    _tell_half_a_countersink(features, remarks)
    return Callout(tuple(claim_depths(features))), remarks


def _tell_half_a_countersink(features: list[Feature], remarks: list[Note]) -> None:
    """`Ø6.6 CSK 90°`: the diameter is the hole's or the countersink's."""
    kinds = [feature.kind for feature in features if isinstance(feature, Size)]
    angle = next((f for f in features if isinstance(f, Size) and f.kind == "countersink angle"), None)
    if angle is not None and "countersink diameter" not in kinds:
        words = "a countersink's angle without its diameter: what stands before it is taken for the hole's"
        remarks.append(Note("warning", words, angle.measure.span[0]))


def _lead(leading: list[Tail], pieces: list[Piece]) -> None:
    """What stands before the first feature belongs to it."""
    first = pieces[0]
    for tail in leading:
        if tail.name == "places":
            if first.count is not None:
                raise CalloutError("a second count", *tail.span, "one count for a feature")
            first.count = tail
        elif isinstance(first.body, RawSize | RawThread):
            first.body.tails.append(tail)
        else:
            raise CalloutError("this word belongs before a size", *tail.span)


def _items(piece: Piece, text: str) -> Iterator[Item]:
    if isinstance(piece.body, RawThread):
        thread, places, typical = settle(piece.body)
        yield Item(thread, piece.separator, piece.count, places, typical)
    elif isinstance(piece.body, RawReady):
        last = len(piece.body.features) - 1
        for at, feature in enumerate(piece.body.features):
            before = (None, None) if at else (piece.separator, piece.count)
            after = (piece.body.places, piece.body.typical) if at == last else (None, False)
            yield Item(feature, *before, *after, piece.body.span)
    elif not isinstance(piece.body, RawSize):
        yield Item(piece.body, piece.separator, piece.count, None, False)
    else:
        weighed = weigh(piece.body, text)
        yield Item(weighed, piece.separator, piece.count, weighed.places, weighed.typical)


def _spread(items: list[Item], remarks: list[Note]) -> None:
    """The count of each item.

    One typed first holds on, over line ends too, until another or a semicolon; one typed last, and TYP, hold for what
    stands before them in the same line, back to one that has a count of its own there. What depends on a feature has
    its count whatever parts them.
    """
    running: Repeat | None = None
    last: Repeat | None = None  # a count typed after a feature: what belongs to the feature has it too
    first: Tail | None = None  # where the running count is typed
    typical = False  # TYP before a feature
    segment: list[Item] = []
    for item in items:
        dependent = _depends(item)
        if not dependent and item.separator != "BY":
            if last is not None:
                segment = []
            last, typical = None, False
        if dependent and item.count_before is not None and item.separator is None and running is None:
            _count_all(segment, _repeat(item.count_before))
        if item.separator == "SEMICOLON" and not dependent:
            running = None
        if item.separator in ("SEMICOLON", "LINE") and not dependent:
            segment = []
        segment.append(item)
        if (
            running is not None
            and item.count_before is None
            and item.separator in ("COMMA", "LINE")
            and first is not None
        ):
            _tell_shared([item], first, remarks)
        if item.count_before is not None:
            first = item.count_before
            running = _repeat(item.count_before)
        if item.count_after is not None:
            if running is not None and running.count != item.count_after.value[0]:
                raise CalloutError("a second count", *item.count_after.span, "one count for a feature")
            _tell_shared(segment[:-1], item.count_after, remarks)
            _count_all(segment, _repeat(item.count_after))
            last = _repeat(item.count_after)
        elif item.kind == "bolt circle diameter" and item.count_before is None:
            item.repeat, item.counted = ONCE, False  # one circle, however many holes stand on it
        else:
            item.repeat, item.counted = running or last or ONCE, (running or last) is not None
        typical = typical or item.typical
        if item.typical:
            _tell_typical(segment[:-1], remarks)
            _mark_typical(segment)
        elif typical:
            _mark_typical([item])


def _depends(item: Item) -> bool:
    """What belongs to the feature before it: its depth or length, its hole's counterbore or countersink, its frame."""
    if item.group is not None:
        return item.follows or item.group.startswith(_OF_A_HOLE)
    return (
        item.follows
        or item.kind in DEPENDENT_KINDS
        or (isinstance(item.feature, Frame) and item.separator != "SEMICOLON")
    )


def _tell_shared(items: list[Item], count: Tail, remarks: list[Note]) -> None:
    """A count that reaches a feature of its own could be meant for its neighbour alone."""
    for item in items:
        if not _depends(item) and not item.counted and item.separator != "BY" and item.kind != "bolt circle diameter":
            text = f"the count {count.value[0]} is taken for this too; a semicolon between them ends it"
            remarks.append(Note("info", text, item.span[0]))


def _tell_typical(items: list[Item], remarks: list[Note]) -> None:
    """TYP, too, could be meant for the feature before it alone."""
    for item in items:
        if not _depends(item) and item.separator != "BY":
            remarks.append(Note("info", "TYP is taken for this too; a semicolon between them ends it", item.span[0]))


def _count_all(items: list[Item], repeat: Repeat) -> None:
    for each in items:
        each.repeat, each.counted = repeat, True


def _repeat(count: Tail) -> Repeat:
    number, holes = count.value
    return Repeat(number, holes=holes)


def _mark_typical(segment: list[Item]) -> None:
    for each in segment:
        each.repeat = each.repeat._replace(typical=True, count=each.repeat.count if each.counted else None)


def _join(items: list[Item], at: int, text: str, remarks: list[Note]) -> tuple[int, Feature]:
    """The feature that begins at item `at`, and how many items it takes."""
    item = items[at]
    if isinstance(item.feature, Thread):
        return 1, item.feature._replace(repeat=item.repeat)
    if not isinstance(item.feature, Weighed):
        return 1, _repeated(item)
    if item.group is not None:
        return 1, _of_form(item.feature, item.group, item.repeat)
    following = items[at + 1] if at + 1 < len(items) else None
    beside = following is not None and following.group is None
    if beside and following is not None and following.separator == "BY" and isinstance(following.feature, Weighed):
        if _are_of_a_tube(item.feature, following.feature):
            return 1, _single(item.feature, item.repeat, following)
        if following.kind in DEPENDENT_KINDS:
            return 1, _single(item.feature, item.repeat, following)
        third = items[at + 2] if at + 2 < len(items) else None
        if third is not None and third.separator == "BY":
            raise CalloutError("a third number after an x", *third.span, "2 x 45°, 12 x 12 SQ, Ø10 x 20 DEEP")
        check_turn(item, following, text)
        return 2, _by(item.feature, following, text, remarks)
    return 1, _single(item.feature, item.repeat, following)


def _are_of_a_tube(one: Weighed, two: Weighed) -> bool:
    """`25 OD x 20 ID`: both sides are told, so the x only parts them; a fraction beside a decimal has another unit."""
    forms = {part.measure.nominal.form for part in (one, two) if part.measure.nominal is not None}
    return {"od", "id"} <= {*one.notes, *two.notes} and len(forms) < 2


def _of_form(this: Weighed, kind: str, repeat: Repeat) -> Size:
    """One number of a counterbore, slot or the like."""
    measure = this.measure
    if measure.nominal is None and measure.tolerance is None:
        raise CalloutError(f"a full radius where a {kind} is meant", *this.span)
    if isinstance(measure.tolerance, Classed | InchFit) and not kind.endswith(("diameter", "width")):
        raise CalloutError(f"a tolerance class on a {kind}", *this.span, "± or limits")
    if this.total is not None or this.shorter_side is not None or this.kind == "coordinate":
        raise CalloutError(f"something beside a {kind} that does not belong there", *this.span)
    return Size(kind, this.measure, repeat, this.through, None, None, this.modifiers, this.drill, this.notes)


def _repeated(item: Item) -> Feature:
    """A ready feature with the count that stands before it; without one it keeps its own."""
    feature = item.feature
    assert not isinstance(feature, Weighed)
    if (item.counted or item.repeat.typical) and isinstance(feature, Repeated):
        return feature._replace(repeat=item.repeat)
    return feature


def _by(first: Weighed, item: Item, text: str, remarks: list[Note]) -> Feature:
    """What `first x second` is.

    Raises:
        CalloutError: the two do not go together.
    """
    second = item.feature
    assert isinstance(second, Weighed)
    if second.total is not None and is_whole(first.measure.nominal) and first.kind is None:
        return _spaced(first, second)
    if second.kind == "square" and first.kind in (None, "square"):
        return _square(first, second, item.repeat)
    chamfer_kinds = (None, "chamfer size")
    if first.kind not in chamfer_kinds or second.kind not in chamfer_kinds:
        hint = "2 x 45°, 12 x 12 SQ, Ø10 x 20 DEEP"
        raise CalloutError("an x between sizes that do not go together", *second.span, hint)
    for each in (first, second):
        _refuse_tails(each, "a chamfer")
    angles = is_angle_measure(first.measure), is_angle_measure(second.measure)
    notes = first.notes + second.notes
    if all(angles):
        raise CalloutError("an x between two angles", *second.span, "a size and an angle, as in 2 x 45°")
    if any(angles):
        size, angle = _chamfer_parts(first, second, angle_first=angles[0], text=text)
        if angle.nominal is not None and angle.nominal.value >= _RIGHT_ANGLE:
            raise CalloutError(
                f"no chamfer has {angle.nominal.value}°", *second.span, "a blank after the x alone for a count: 4x 90°"
            )
        return Chamfer(size, angle, None, angles[0], repeat=item.repeat, notes=notes)
    _check_legs(first, second, remarks)
    return Chamfer(first.measure, None, second.measure, repeat=item.repeat, notes=notes)


def _refuse_tails(part: Weighed, of: str) -> None:
    """What would be lost by joining is refused."""
    if isinstance(part.measure.tolerance, Classed | InchFit):
        raise CalloutError(f"a tolerance class on a part of {of}", *part.span, "± or limits")
    if part.through or part.modifiers or part.total or part.shorter_side or part.measure.other:
        raise CalloutError(f"something beside a part of {of} that does not belong there", *part.span)


def _chamfer_parts(first: Weighed, second: Weighed, *, angle_first: bool, text: str) -> tuple[Measure, Measure]:
    """Size and angle of a chamfer. What stands last is the whole chamfer's, or is refused where that is not sure."""
    one, two = first.measure, second.measure
    if two.bound or (not angle_first and _unmarked_tolerance(two, text)):
        raise CalloutError(
            "the tolerance after the angle can be the size's or the angle's",
            *second.span,
            "1 ±0.1 x 45°, or 1 x 45° ±1° with its mark",
        )
    if two.standing is not Standing.PLAIN and text[two.span[0]] not in "([|":
        one = one._replace(standing=two.standing)
    return (two, one) if angle_first else (one, two)


def _unmarked_tolerance(angle: Measure, text: str) -> bool:
    match angle.tolerance:
        case PlusMinus(amount):
            amounts: tuple[Amount, ...] = (amount,)
        case Deviations(upper, lower):
            amounts = (upper, lower)
        case _:
            return False
    return not any(mark in text[slice(*amount.span)].lower() for amount in amounts for mark in ("°", "'", '"', "deg"))


def _spaced(first: Weighed, second: Weighed) -> Size:
    """`5x20 (=100)`: the total tells that the first number is a count."""
    for each in (first, second):
        _refuse_class_of_spacing(each)
    count = first.measure.nominal
    assert count is not None
    kind = "angle" if is_angle_measure(second.measure) else "length"
    return Size(kind, second.measure, Repeat(int(count.value)), total=second.total, notes=second.notes)


def _refuse_class_of_spacing(part: Weighed) -> None:
    if isinstance(part.measure.tolerance, Classed | InchFit):
        raise CalloutError("a tolerance class on a spacing", *part.span, "± or limits")


def _square(first: Weighed, second: Weighed, repeat: Repeat) -> Size:
    _refuse_tails(first, "a square")
    one, two = first.measure.nominal, second.measure.nominal
    if one is None or two is None or one.value != two.value or one.unit != two.unit:
        raise CalloutError("a square whose sides differ", *second.span, "12 x 12 SQ")
    if first.measure.tolerance is not None:
        raise CalloutError("a tolerance on one side of a square", *first.span, "12 x 12 SQ ±0.1")
    return Size(
        "square", second.measure, repeat, second.through, None, None, second.modifiers, second.drill, second.notes
    )


def _check_legs(first: Weighed, second: Weighed, remarks: list[Note]) -> None:
    """Two lengths about an x are the legs of a chamfer where a word says so, or where they can be nothing else."""
    one, two = first.measure.nominal, second.measure.nominal
    span = (first.span[0], second.span[1])
    if first.letter_c:
        raise CalloutError("C alone means 45°: a degree mark is missing, or CHAM is meant", *second.span, "C1, 1 x 30°")
    if one is not None and two is not None:
        _check_leg_numbers(one, two, span)
    if "chamfer size" in (first.kind, second.kind):
        return
    if one is None or two is None:
        raise CalloutError("limits about an x", *span, "a size and an angle, as in 2 x 45°, or CHAM before two legs")
    whole = is_whole(one) and first.measure.tolerance is None
    glued = one.value > 1 and is_whole(two) and second.span[0] - first.span[1] == 1  # 4X6
    if (whole and (glued or second.measure.tolerance is not None)) or max(one.value, two.value) > _LONGEST_LEG:
        raise CalloutError(
            "the x can mean a count, two sizes, or a chamfer's two legs",
            *span,
            "a blank after the x alone for a count (4x 25 ±0.1), one size a line, CHAM before it for a chamfer",
        )
    text = "read as the two legs of a chamfer"
    remarks.append(
        Note("warning", f"{text}; a count has its blank after the x alone (4x 25)" if whole else text, span[0])
    )


def _check_leg_numbers(one: Amount, two: Amount, span: Span) -> None:
    if one.unit != two.unit:
        raise CalloutError("a unit on one leg of a chamfer alone", *span, "the same unit on both")
    if is_whole(two) and two.value in USUAL_ANGLES and two.value >= 5 * one.value:
        raise CalloutError(f"the degree mark after {two.value} is missing", *two.span, f"{two.value}°")
    if 0 in (one.value, two.value):
        raise CalloutError("a leg of 0", *span, "a size and an angle, as in 2 x 45°")


def _single(this: Weighed, repeat: Repeat, following: Item | None) -> Feature:
    if this.kind == "chamfer size":
        if is_angle_measure(this.measure):
            raise CalloutError("an angle where the size of a chamfer is meant", *this.span, "CHAM 1 x 30°")
        _refuse_tails(this, "a chamfer")
        return Chamfer(this.measure, letter_c=this.letter_c, repeat=repeat, notes=this.notes)
    kind = "length" if this.kind in (None, "coordinate") else this.kind
    if this.kind is None and this.through and not is_angle_measure(this.measure):
        kind = "diameter"  # what goes through without a mark is a drilled hole
    if kind == "length" and PILOT_HOLE in this.notes:
        raise CalloutError("a number that is the hole's diameter or its depth", *this.span, "PILOT HOLE Ø6.8 ↧20")
    if is_angle_measure(this.measure):
        if this.kind is not None:
            raise CalloutError(f"an angle where a {this.kind} is meant", *this.span, "a length")
        kind = "angle"
    if kind == "depth" and this.through:
        raise CalloutError("a depth that goes through", *this.span, "THRU or a depth")
    if this.total is not None:
        _refuse_class_of_spacing(this)
    if this.total is not None and this.kind is not None:
        raise CalloutError("a total after a size that is not a spacing", *this.total.span)
    if this.shorter_side is not None and kind != "angle":
        raise CalloutError("a shorter side belongs to an angle", *this.shorter_side.span, "30° (shorter side 40)")
    if this.through and following is not None and following.kind == "depth":
        raise CalloutError("a depth on a hole that goes through", *following.span, "THRU or a depth")
    return Size(
        kind, this.measure, repeat, this.through, this.total, this.shorter_side, this.modifiers, this.drill, this.notes
    )
