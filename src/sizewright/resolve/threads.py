"""Threads: from a designation to the limits of three diameters on one side or both, or to the gauging of a taper."""

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.notation.kinds import OF_THE_DRILL
from sizewright.notation.model import Feature, Form, Size, Standing, Thread
from sizewright.resolve.characteristic import Characteristic, Either, Limits, Side, Status
from sizewright.resolve.scope import Scope
from sizewright.resolve.thread_forms import Designated, designate
from sizewright.resolve.thread_limits import default_class, limits_of, side_of
from sizewright.standards.threads.model import Doubt, TaperGauging, ThreadLimits
from sizewright.standards.threads.pipe import iso7_sizes
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import MM_PER_INCH, plain

_OWN_SIDES: dict[str, Side] = {"R": "external", "Rc": "internal", "Rp": "internal"}
_OTHER: dict[Side, Side] = {"internal": "external", "external": "internal"}
# No thread is this many diameters deep: a depth that is has another unit.
_DEEPEST = 15
_BOTH: tuple[Side, Side] = ("internal", "external")


class _Member(NamedTuple):
    """One side that is asked for, with its class where one is typed."""

    side: Side
    class_: str | None


def resolve_thread(thread: Thread, following: Feature | None, scope: Scope) -> Iterator[Characteristic]:
    """The characteristics of a thread: one, or two where a pair of classes is typed (the internal one first).

    Raises:
        CalloutError: no such thread, pitch or class, or what is typed contradicts itself.
    """
    designated = designate(thread, scope)
    members, told = _members(thread, following, scope)
    made = _bare(thread, designated)
    _remark(thread, following, designated, scope)
    if thread.standing is Standing.REFERENCE:
        said = "reference: for information, no limits of its own"
        yield made._replace(status=Status.REFERENCE, side=members[0].side if told else None, why=(said,))
    elif _is_sti(thread):
        why = (
            *designated.why,
            "tapped for a wire thread insert: the tapped hole is larger than the thread, by the insert's own standard "
            "(ASME B18.29), which is not held here",
        )
        class_ = thread.classes[0] if thread.classes else None
        yield made._replace(side="internal", why=why, class_=class_, extra=_with_class(made, class_))
    elif told:
        for member in members:
            yield _sided(made, member, thread, designated, scope)
    else:
        yield _either(made, members, thread, designated, scope)


def taper_of_radius(size: Size, scope: Scope) -> Thread | None:
    """`R 1/4` on a metric sheet is a taper pipe thread of ISO 7-1; with an inch mark, or in inches, it is a radius.

    Only a bare R before a bare size is one: a word (RADIUS 1/4), a tolerance or a frame tells a radius.
    """
    measure = size.measure
    nominal = measure.nominal
    if nominal is None or nominal.form is not Form.FRACTION or nominal.unit or scope.context.unit == "inch":
        return None
    mark = scope.text[measure.span[0] : nominal.span[0]].strip()
    more = measure.tolerance or measure.bound or measure.other or size.modifiers
    name = " ".join(scope.typed(nominal).replace("-", " ").split())
    if mark.lower() != "r" or more or measure.standing is not Standing.PLAIN or name not in iso7_sizes():
        return None
    scope.info(f'R {name} is read as a taper pipe thread (ISO 7-1); R {name}" is a radius', measure.span)
    return Thread("R", name, repeat=size.repeat, through=size.through, notes=size.notes, span=measure.span)


# ---- which sides -----------------------------------------------------------------------------------------------------


def _members(thread: Thread, following: Feature | None, scope: Scope) -> tuple[tuple[_Member, ...], bool]:
    """The sides asked for, and whether anything tells them; where nothing does, both."""
    word = _told_by_word(thread)
    sides = [side_of(thread, class_) for class_ in thread.classes]
    if len(thread.classes) == 2:
        return _pair(thread, sides), True
    class_ = thread.classes[0] if thread.classes else None
    side = sides[0] if sides else None
    if side is not None and word not in (None, side):
        who = "a word" if thread.side else thread.series or thread.form
        raise CalloutError(f"{class_} is the class of an {side} thread, {who} says {word}", *thread.class_span)
    hole = _told_by_hole(thread, following)
    side = side or word
    if side == "external" and hole is not None:
        scope.warn(f"{class_ or thread.series or thread.form} is an external thread, on a hole", thread.span)
    side = side or hole or _bare_g(thread, scope)
    if side is None:
        return tuple(_Member(each, class_) for each in _BOTH), False
    return (_Member(side, class_),), True


def _pair(thread: Thread, sides: list[Side | None]) -> tuple[_Member, ...]:
    one, two = thread.classes
    if set(sides) != set(_BOTH):
        raise CalloutError(
            f"{one}/{two} is no pair of an internal and an external class", *thread.class_span, "6H/6g, 2B/2A"
        )
    both = [_Member(side, class_) for side, class_ in zip(sides, thread.classes, strict=True) if side is not None]
    return tuple(both if both[0].side == "internal" else reversed(both))


def _told_by_word(thread: Thread) -> Side | None:
    own = _OWN_SIDES.get(thread.form) or ("external" if thread.series.startswith("UNR") else None)
    if own is not None and thread.side == _OTHER[own]:
        raise CalloutError(f"{thread.series or thread.form} is an {own} thread", *thread.span)
    return thread.side or own or ("internal" if thread.insert else None)


def _told_by_hole(thread: Thread, following: Feature | None) -> Side | None:
    """A hole is told by THRU, by a count of holes, or by the depth that follows."""
    deep = isinstance(following, Size) and following.kind in ("depth", "thread depth")
    return "internal" if thread.through or thread.repeat.holes or deep else None


def _bare_g(thread: Thread, scope: Scope) -> Side | None:
    if thread.form != "G":
        return None
    scope.info(
        "G without A or B is the internal thread; an external one has to state its class (ISO 228-1)", thread.span
    )
    return "internal"


def _is_sti(thread: Thread) -> bool:
    return "sti" in thread.insert.split("; ")


# ---- characteristics -------------------------------------------------------------------------------------------------


def _bare(thread: Thread, designated: Designated) -> Characteristic:
    extra: dict[str, object] = {"form": designated.form, "size": designated.size}
    if designated.tpi is not None:
        extra["tpi"] = plain(designated.tpi)
    elif designated.pitch is not None:
        extra["pitch"] = plain(designated.pitch)
    extra |= {"starts": designated.starts, "hand": thread.hand or "right", "class": None}
    if designated.starts > 1 and designated.lead is not None:
        extra["lead"] = plain(designated.lead)
    if thread.insert:
        extra["insert"] = thread.insert
    return Characteristic(
        "thread",
        designated.unit,
        Status.UNTOLERANCED,
        designated.nominal,
        count=thread.repeat.count,
        extra={"thread": extra},
    )


def _found(
    member: _Member, thread: Thread, designated: Designated, scope: Scope
) -> tuple[tuple[Limits, ...], str | None, tuple[str, ...]]:
    """Limits, class and reasons of one side; remarks of the standard go to the scope."""
    internal = member.side == "internal"
    class_, reasons = member.class_, designated.why
    if class_ is None:
        class_, source = default_class(designated, thread, internal=internal)
        reasons += (f"no class typed: {class_} taken ({source})",) if class_ else ()
    found = limits_of(designated, thread, class_, internal=internal, edition=scope.context.edition)
    for remark in found.remarks:
        (scope.warn if isinstance(remark, Doubt) else scope.info)(remark)
    rows = _of_taper(found, internal) if isinstance(found, TaperGauging) else _of_diameters(found)
    basic = (_basic(found, designated.unit),) if isinstance(found, TaperGauging) else ()
    return rows, class_, (*reasons, *found.why, *basic)


def _basic(found: TaperGauging, unit: str) -> str:
    named = (("major", found.major), ("pitch", found.pitch), ("minor", found.minor))
    diameters = ", ".join(f"{name} {plain(value)}" for name, value in named if value is not None)
    return f"basic diameters at the gauge plane: {diameters} {'in' if unit == 'inch' else unit}"


def _of_diameters(found: ThreadLimits) -> tuple[Limits, ...]:
    named = (("major diameter", found.major), ("pitch diameter", found.pitch), ("minor diameter", found.minor))
    return tuple(Limits(name, *pair) for name, pair in named if pair != (None, None))


def _of_taper(found: TaperGauging, internal: bool) -> tuple[Limits, ...]:
    """Where the gauge plane may lie: from the small end of an external thread, from the face of an internal one."""
    basic = Decimal(0) if internal else found.gauge_length
    return (Limits("gauge plane", basic - found.plane_tolerance, basic + found.plane_tolerance),)


def _sided(
    made: Characteristic, member: _Member, thread: Thread, designated: Designated, scope: Scope
) -> Characteristic:
    rows, class_, why = _found(member, thread, designated, scope)
    return made._replace(
        status=Status.TOLERANCED if rows else Status.UNTOLERANCED,
        side=member.side,
        limits=rows,
        class_=class_,
        why=why,
        extra=_with_class(made, class_),
    )


def _either(
    made: Characteristic, members: tuple[_Member, ...], thread: Thread, designated: Designated, scope: Scope
) -> Characteristic:
    (inner, inner_class, inner_why), (outer, outer_class, outer_why) = (
        _found(member, thread, designated, scope) for member in members
    )
    same = inner_class if inner_class == outer_class else None
    shared = [reason for reason in inner_why if reason in outer_why]
    why = (
        *shared,
        "nothing tells the side: both are given",
        *(f"internal: {reason}" for reason in inner_why if reason not in shared),
        *(f"external: {reason}" for reason in outer_why if reason not in shared),
    )
    if not inner and not outer:
        return made._replace(class_=same, why=why, extra=_with_class(made, same))
    return made._replace(
        status=Status.TOLERANCED,
        class_=same,
        either=Either(inner, outer),
        why=why,
        extra=_with_class(made, same),
    )


def _with_class(made: Characteristic, class_: str | None) -> dict[str, object]:
    thread = made.extra["thread"]
    assert isinstance(thread, dict)
    return {"thread": thread | {"class": class_}}


# ---- remarks ---------------------------------------------------------------------------------------------------------


def _remark(thread: Thread, following: Feature | None, designated: Designated, scope: Scope) -> None:
    if thread.form in ("Rc", "Rp") and "/" not in thread.size:
        scope.warn(f"{thread.form} {thread.size} is read as a pipe thread (ISO 7-1)", thread.span)
    if thread.insert and not _is_sti(thread):
        scope.warn(
            f"{thread.insert.upper()}: the limits are those of the thread in the insert; the hole is tapped larger, "
            "as the insert asks",
            thread.span,
        )
    if thread.finish:
        scope.warn(
            f"{thread.finish.upper()}: the limits are those of the class as the standard tabulates it; which of them "
            "hold before and which after the coating is for the drawing to say",
            thread.span,
        )
    for note in thread.notes:
        if note != "coarse":
            scope.info(f"noted: {note}", thread.span)
    if (thread.engaged or thread.engagement) and thread.form not in ("M", "MJ", "UN"):
        scope.warn("the length of engagement typed does not enter these limits", thread.span)
    of_hole = isinstance(following, Size) and not OF_THE_DRILL.isdisjoint(following.notes) and following.kind == "depth"
    if isinstance(following, Size) and (of_hole or following.kind in ("thread depth", "thread length")):
        _check_unit(following, designated, scope)


def _check_unit(size: Size, designated: Designated, scope: Scope) -> None:
    """A bare depth has the sheet's unit; where the thread's is another, a figure that can only be that is refused.

    Raises:
        CalloutError: more than 15 diameters, or less than a pitch.
    """
    nominal, unit = size.measure.nominal, scope.context.unit
    if nominal is None or nominal.unit is not None or unit == designated.unit:
        return
    scale = Fraction(MM_PER_INCH) if unit == "inch" else 1 / Fraction(MM_PER_INCH)
    depth, what = Fraction(nominal.value) * scale, size.kind.removeprefix("thread ")
    too_deep = designated.nominal is not None and depth > _DEEPEST * Fraction(designated.nominal)
    if too_deep or depth < designated.exact_pitch:
        typed, words = scope.typed(nominal), {"mm": " mm", "inch": '"'}
        raise CalloutError(
            f"a thread in {designated.unit} and a {what} of {typed} {unit}",
            *nominal.span,
            f"its unit: {typed}{words[designated.unit]} or {typed}{words[unit]}",
        )
    scope.warn(f"a thread in {designated.unit}, its {what} in {unit} as the sheet is", size.measure.span)
