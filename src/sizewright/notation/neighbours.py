"""What may stand beside what: two features after each other, and what parts them."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from sizewright.notation.amounts import are_near, is_angle, is_dual
from sizewright.notation.fits import CLASSED_KINDS
from sizewright.notation.kinds import DEPENDENT_KINDS, PILOT_HOLE
from sizewright.notation.measures import Weighed, is_angle_measure
from sizewright.notation.model import ONCE, Classed, Feature, LimitPair, Measure, Note, Repeat, Span, Standing, Thread
from sizewright.notation.model_surfaces import Texture
from sizewright.notation.pairs import is_whole
from sizewright.notation.pieces import Tail
from sizewright.text.errors import CalloutError

# Grades of ISO 286 end here: R18 may be a class, R20 is a radius.
_HIGHEST_GRADE = 18
_DEPTHS = ("depth", "thread depth")
_FULL_TURN, _RIGHT_ANGLE = 360, 90
_MOST_GLUED = 12  # a count that has no blank after its x
USUAL_ANGLES = (15, 30, 45, 60)


@dataclass(slots=True, eq=False, repr=False)
class Item:
    """A feature on its way, with what was typed about how often it occurs."""

    feature: Weighed | Feature
    separator: str | None
    count_before: Tail | None
    count_after: Tail | None
    typical: bool
    place: Span = (0, 0)
    repeat: Repeat = ONCE
    counted: bool = False
    group: str | None = None  # what kind it is in a form such as a counterbore
    follows: bool = False  # another number of the same form stands before it

    @property
    def span(self) -> Span:
        """Where it stands; a ready feature has no span of its own."""
        return self.feature.span if isinstance(self.feature, Weighed | Thread) else self.place

    @property
    def kind(self) -> str | None:
        """The kind its mark tells, None for a bare number."""
        if isinstance(self.feature, Weighed):
            return self.feature.kind
        return "thread" if isinstance(self.feature, Thread) else "ready"


def check_neighbours(before: Item, item: Item) -> None:
    """A bare number after another feature needs a line or a semicolon between them, or a mark that tells what it is."""
    if item.follows:
        return
    separator, kind = item.separator, item.group or item.kind
    if separator is None and kind is not None and isinstance(before.feature, Weighed) and before.kind is None:
        nominal = before.feature.measure.nominal
        if is_whole(nominal) and before.feature.measure.tolerance is None and item.count_before is None:
            raise CalloutError(
                "a whole number before a mark: a count without its x, or a size",
                *before.span,
                "4x Ø10 for a count, a line of its own for a size",
            )
    if item.kind == "chamfer size" and separator is None and _is_bare_angle(before):
        raise CalloutError("an angle beside a chamfer", *item.span, "CHAM 0.8 x 45°")
    if item.kind == "thread depth" and before.kind in ("diameter", None) and not item.follows:
        raise CalloutError("a depth of thread beside a plain size", *item.span, "DEEP for the hole, a thread before it")
    _check_thread_beside(before, item)
    _check_mark_beside(before, item)
    if separator is None and kind == before.kind == "diameter" and item.count_before is None and not before.group:
        raise CalloutError("two diameters side by side", *item.span, "a semicolon or a line between two sizes")
    _check_twice(before, item)
    if separator == "LINE":
        _check_stacked(before, item)
        _check_under_class(before, item)
    if kind is not None or separator in ("LINE", "SEMICOLON", "BY"):
        return
    if separator == "COMMA":
        raise CalloutError("a number after a comma", *item.span, "no blank after a decimal comma, or one size a line")
    raise CalloutError("two sizes side by side", *item.span, "one size a line, or a mark that tells what each is")


def _is_bare_angle(item: Item) -> bool:
    return isinstance(item.feature, Weighed) and item.kind is None and is_angle_measure(item.feature.measure)


def _check_thread_beside(before: Item, item: Item) -> None:
    """Beside a thread stands what has a mark; an x after it is followed by its depth or length."""
    if before.kind == "thread" and item.separator in (None, "BY") and item.kind in (None, "thickness"):
        raise CalloutError("a number after a thread", *item.span, "20 DEEP or 20 LONG")
    _check_class_beside(before, item)
    _check_grade_beside(before, item)
    whole = {"thread", "ready"} & {before.kind, item.kind}
    if item.separator == "BY" and whole and item.kind not in DEPENDENT_KINDS:
        what = "a thread" if "thread" in whole else "what is no size"
        hint = "no blank before the x for a count, 20 DEEP for a depth"
        raise CalloutError(f"an x beside {what}", *item.span, hint)
    if before.kind == "thread" and item.kind in _DEPTHS and _through(before.feature) and PILOT_HOLE not in _notes(item):
        raise CalloutError("a depth on a thread that goes through", *item.span, "THRU or a depth")


def _check_class_beside(before: Item, item: Item) -> None:
    """`Ø20` and under it `M6`: a thread of its own, or the class of the size above."""
    thread = item.feature
    if (
        item.separator not in ("LINE", "COMMA")
        or not isinstance(thread, Thread)
        or not isinstance(before.feature, Weighed)
    ):
        return
    bare = thread.form in ("M", "G") and thread.pitch is None and not thread.classes and thread.size.isdigit()
    size, nominal = before.feature, before.feature.measure.nominal
    if not bare or size.kind not in CLASSED_KINDS or size.through or size.measure.tolerance or nominal is None:
        return
    if int(thread.size) <= _HIGHEST_GRADE and nominal.value > int(thread.size) and not is_angle_measure(size.measure):
        name = f"{thread.form}{thread.size}"
        hint = f"a semicolon before it or its pitch for a thread; {nominal.value} {name} on one line for the class"
        raise CalloutError(f"{name} can be a thread or the tolerance class of the size before it", *item.span, hint)


def _check_grade_beside(before: Item, item: Item) -> None:
    """`Ø25` and under it `N7`: a roughness grade, or the class of the size above."""
    size = before.feature
    if not isinstance(item.feature, Texture) or not item.feature.grade or not isinstance(size, Weighed):
        return
    if item.separator in ("LINE", "COMMA", None) and size.kind in CLASSED_KINDS and not size.measure.tolerance:
        hint = f"a semicolon or √ before it for the grade, {item.feature.grade} beside the size for the class"
        raise CalloutError(f"{item.feature.grade} can be a roughness grade or a tolerance class", *item.span, hint)


def _through(feature: object) -> bool:
    return isinstance(feature, Thread) and feature.through is not None


def _notes(item: Item) -> tuple[str, ...]:
    return item.feature.notes if isinstance(item.feature, Weighed | Thread) else ()


def _check_mark_beside(before: Item, item: Item) -> None:
    """`Ø20 R4`, `Ø20 C1`: a radius or chamfer beside a size, nothing between them, can be a tolerance class."""
    if item.separator is not None or item.count_before is not None or not isinstance(item.feature, Weighed):
        return
    if item.kind != "radius" and not item.feature.letter_c:
        return
    measure, size = item.feature.measure, before.feature
    if not isinstance(size, Weighed) or size.kind not in CLASSED_KINDS or size.measure.tolerance is not None:
        return
    if is_angle_measure(size.measure) or size.through or not is_whole(measure.nominal) or measure.tolerance is not None:
        return
    if measure.nominal is not None and measure.nominal.value <= _HIGHEST_GRADE:
        raise CalloutError(
            f"{'a chamfer' if item.feature.letter_c else 'a radius'} beside a size can be a tolerance class",
            *item.span,
            "a semicolon or a line between the two sizes",
        )


def _check_under_class(before: Item, item: Item) -> None:
    """Limits on the line under a class belong to it, and are held against it only in brackets on its own line."""
    if item.kind is not None or not isinstance(before.feature, Weighed) or not isinstance(item.feature, Weighed):
        return
    if isinstance(before.feature.measure.tolerance, Classed) and isinstance(item.feature.measure.tolerance, LimitPair):
        raise CalloutError(
            "limits under a tolerance class", *item.span, "the limits in brackets beside it: Ø25 H7 (25.021/25.000)"
        )


def _check_twice(before: Item, item: Item) -> None:
    """The same size once more: in the other unit under it, or a drill's fraction beside its decimal."""
    if not isinstance(before.feature, Weighed) or not isinstance(item.feature, Weighed):
        return
    one, two = before.feature.measure.nominal, item.feature.measure.nominal
    if one is None or two is None or item.count_before is not None or is_angle(one) or is_angle(two):
        return
    apart = item.feature.measure.standing is not Standing.PLAIN and item.separator == "LINE"
    if apart and item.kind in (None, before.kind) and is_dual(one, two):
        hint = "the other unit on the same line (25.4 [1.000]), a semicolon between two sizes"
        raise CalloutError("a size of its own, or the one above in the other unit", *item.span, hint)
    if item.separator is None and before.kind is None and one.form is not two.form and are_near(one, two):
        raise CalloutError("one size typed twice, or two sizes", *item.span, "one of the two numbers")


def _check_stacked(before: Item, item: Item) -> None:
    """Two sizes of one kind, nearly alike, one under the other, may be the limits of one."""
    if (item.kind != before.kind and None not in (item.kind, before.kind)) or item.group or before.group:
        return
    sizes = [each.feature.measure for each in (before, item) if isinstance(each.feature, Weighed)]
    if any(size.nominal is None or size.tolerance or size.bound or size.other for size in sizes):
        return
    nominals = [size.nominal for size in sizes if size.nominal is not None]
    if len(nominals) < 2 or is_angle(nominals[0]) or is_angle(nominals[1]):
        return
    if nominals[0].value != nominals[1].value and are_near(*nominals):
        raise CalloutError(
            "two near sizes, one under the other: two sizes, or the two limits of one",
            *item.span,
            "the mark once for limits (Ø25.1/24.9), a semicolon between two sizes",
        )


# ---- counts glued to their x -----------------------------------------------------------------------------------------


def count_glued(items: list[Item], text: str, remarks: list[Note]) -> None:
    """`4X6.6`: a small whole number glued to its x counts where the number after it has decimals.

    Raises:
        CalloutError: another count stands there too.
    """
    for at in range(len(items) - 1, 0, -1):
        number, counted = items[at - 1], items[at]
        if not _is_glued_count(number, counted, text):
            continue
        if number.count_before is not None:
            raise CalloutError("a second count", *number.span, "one count for a feature")
        counted.count_before = Tail("places", (_count_of(number), False), number.span)
        counted.separator, counted.typical = number.separator, counted.typical or number.typical
        remarks.append(Note("warning", "a count: two sizes have blanks on both sides of the x", number.span[0]))
        del items[at - 1]


def _is_glued_count(item: Item, following: Item, text: str) -> bool:
    first, second = item.feature, following.feature
    if following.separator != "BY" or not isinstance(first, Weighed) or not isinstance(second, Weighed):
        return False
    measure, nominal = first.measure, second.measure.nominal
    if first.kind is not None or first.notes or measure.nominal is None or not 2 <= _count_of(item) <= _MOST_GLUED:
        return False
    alone = measure == Measure(measure.nominal) and is_whole(measure.nominal) and _glued(item, following, text)
    if not alone or second.kind is not None or second.total is not None or is_angle_measure(second.measure):
        return False
    return nominal is None or not is_whole(nominal)


def check_turn(item: Item, following: Item, text: str) -> None:
    """`6x60°`: as many angles as the number before them says fill a circle; they are no chamfer for sure.

    Raises:
        CalloutError: the x is glued to both, and neither a count nor CHAM is told.
    """
    first, second = item.feature, following.feature
    if not isinstance(first, Weighed) or not isinstance(second, Weighed) or item.counted:
        return
    part = second.measure.nominal
    told = first.kind is not None or second.kind is not None
    if told or second.total is not None or not is_whole(first.measure.nominal):
        return
    if part is None or not is_angle(part) or part.value >= _RIGHT_ANGLE:
        return
    if _count_of(item) * part.value == _FULL_TURN and _glued(item, following, text):
        hint = f"{_count_of(item)}x {text[slice(*part.span)]} for a count, blanks about the x for a chamfer"
        raise CalloutError("a chamfer, or angles that make a full turn", item.span[0], following.span[1], hint)


def _glued(item: Item, following: Item, text: str) -> bool:
    return text[item.span[1] : following.span[0]].lower() == "x"


def _count_of(item: Item) -> int:
    nominal = item.feature.measure.nominal if isinstance(item.feature, Weighed) else None
    return 0 if nominal is None or not isinstance(nominal.value, Decimal) else int(nominal.value)
