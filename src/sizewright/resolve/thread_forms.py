"""From a thread as typed to what it designates: diameter, pitch, lead and starts, and its limits by class and side."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from decimal import Decimal
from fractions import Fraction
from typing import Literal, NamedTuple

from sizewright.notation.model import Span, Thread
from sizewright.resolve.scope import Scope
from sizewright.standards.errors import NotDefined
from sizewright.standards.threads import (
    acme,
    iso261,
    iso965,
    iso_metric,
    pipe,
    trapezoidal,
    unified,
    unified_series,
)
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import MM_PER_INCH, finite_decimal, multiply, plain

_HALF_PLACE = Fraction(1, 20_000)  # of the four places that pitch and lead are written to in inches
_GREATEST_INCH = 6  # the largest size of ASME B1.1 Table 2


class Designated(NamedTuple):
    """What a thread designates, in `unit`; `form` is the series of a Unified thread."""

    form: str
    size: str
    unit: Literal["mm", "inch"]
    nominal: Decimal | None
    pitch: Decimal | None
    tpi: Decimal | None
    starts: int
    lead: Decimal | None = None
    why: tuple[str, ...] = ()
    engagement: iso965.Group = "N"
    engaged: Decimal | None = None

    @property
    def exact_pitch(self) -> Fraction:
        """The pitch in `unit`."""
        if self.tpi is not None:
            return (1 if self.unit == "inch" else Fraction(MM_PER_INCH)) / Fraction(self.tpi)
        assert self.pitch is not None
        return Fraction(self.pitch)


def designate(thread: Thread, scope: Scope) -> Designated:
    """What `thread` designates.

    Raises:
        CalloutError: the standard has no such thread, or the pitch has to be typed.
    """
    with undefined_at(thread.span):
        return _DESIGNATE[thread.form](thread, scope)


@contextmanager
def undefined_at(span: Span) -> Iterator[None]:
    """What a standard leaves undefined becomes an error at `span`."""
    try:
        yield
    except NotDefined as error:
        near = ", ".join(error.near[:5])
        raise CalloutError(error.message.rstrip("."), *span, f"defined near it: {near}" if near else "") from None


# ---- designations ----------------------------------------------------------------------------------------------------


def _metric(thread: Thread, scope: Scope) -> Designated:
    diameter, pitch = Decimal(thread.size), thread.pitch
    why: tuple[str, ...] = ()
    fine = any(note.endswith("fine") for note in thread.notes)
    if pitch is None and fine:
        known = ", ".join(iso261.metric_name(diameter, p) for p in iso261.pitches_of(diameter)[1:])
        raise CalloutError("a fine thread without its pitch", *thread.span, known or "M10x1.25")
    if pitch is None:
        pitch = iso261.coarse_pitch(diameter)
        why = (f"no pitch typed: the coarse pitch {plain(pitch)} mm (ISO 261)",)
    elif "coarse" in thread.notes and not _is_coarse(diameter, pitch):
        scope.warn(f"{plain(pitch)} mm is not the coarse pitch of M{plain(diameter)}", thread.span)
    group = thread.engagement or "N"
    if thread.engaged is not None:
        length = _in_unit(thread, "mm", scope)
        group = iso965.engagement_group(diameter, pitch, length)
        why += (f"length of engagement {plain(length)} mm: group {group} (ISO 965-1)",)
        if thread.engagement not in (None, group):
            scope.warn(f"a length of {plain(length)} mm is group {group}, typed is {thread.engagement}", thread.span)
    count, lead = _starts(thread, pitch)
    return Designated(thread.form, thread.size, "mm", diameter, pitch, None, count, lead, why, group)


def _is_coarse(diameter: Decimal, pitch: Decimal) -> bool:
    try:
        return iso261.coarse_pitch(diameter) == pitch
    except NotDefined:
        return False


def _trapezoidal(thread: Thread, _scope: Scope) -> Designated:
    diameter, pitch = Decimal(thread.size), thread.pitch
    if pitch is None:
        known = trapezoidal.pitches_of(diameter)
        hint = ", ".join(trapezoidal.tr_name(diameter, each) for each in known)
        raise CalloutError("a trapezoidal thread without its pitch", *thread.span, hint)
    count, lead = _starts(thread, pitch)
    return Designated("Tr", thread.size, "mm", diameter, pitch, None, count, lead)


def _unified(thread: Thread, scope: Scope) -> Designated:
    tpi, pitch = thread.tpi, thread.pitch
    if tpi is None and pitch is not None:
        tpi = _per_inch(pitch, thread)
    size, diameter = _unified_size(thread, tpi)
    why: tuple[str, ...] = ()
    _count_like(size, tpi, thread)
    root, plain_series = unified_series.split_series(thread.series) if thread.series else ("", "")
    if tpi is None:
        own = [n for n, name in unified_series.standard_pitches(diameter).items() if name == plain_series]
        if len(own) != 1:
            near = unified_series.near_threads(diameter, Decimal(20))
            told = "threads per inch are not typed, and " if plain_series in ("UN", "UNS") else ""
            raise NotDefined(f"{told}{size} has {'several' if own else 'no'} {plain_series} threads in ASME B1.1", near)
        tpi = own[0]
        why = (f"no threads per inch typed: {plain(tpi)}, the {plain_series} pitch (ASME B1.1 Table 2)",)
    series = thread.series
    if not series:
        found = unified_series.series_of(diameter, tpi)
        if found == "UNS":
            near = (*_pipe_like(size, tpi), *unified_series.near_threads(diameter, tpi))
            raise NotDefined(
                f"{size}-{plain(tpi)} is not in the standard series of ASME B1.1 and no series is typed", near
            )
        series, why = found, (*why, f"no series typed: {found} (ASME B1.1 Table 2)")
    elif plain_series == "UN" and unified_series.series_of(diameter, tpi) in ("UNC", "UNF", "UNEF") and root:
        series = unified_series.series_of(diameter, tpi).replace("UN", f"UN{root}", 1)
    if thread.engaged is None and thread.engagement is not None:
        scope.warn("groups of engagement (S, N, L) belong to metric threads; not used", thread.span)
    count, lead = _starts(thread, pitch, tpi)
    engaged = None if thread.engaged is None else _in_unit(thread, "inch", scope)
    return Designated(series, size, "inch", diameter, pitch, tpi, count, lead, why, engaged=engaged)


def _pipe_like(size: str, tpi: Decimal) -> tuple[str, ...]:
    """1/4-18 is a pipe thread that has lost its name."""
    return (f"{size}-{plain(tpi)} NPT",) if size in pipe.npt_sizes() and pipe.npt_tpi(size) == tpi else ()


def _count_like(size: str, tpi: Decimal | None, thread: Thread) -> None:
    """`2 1/4-20` can be two threads 1/4-20, where the fraction alone is the more usual thread.

    Raises:
        CalloutError: it can, and no series tells.
    """
    whole, _, fraction = size.partition(" ")
    if not fraction or tpi is None or whole == "1":
        return
    alone, mixed = (unified_series.series_of(unified_series.basic_major(each), tpi) for each in (fraction, size))
    typed = unified_series.split_series(thread.series)[1] if thread.series else ""
    if alone not in unified_series.NAMED or mixed in unified_series.NAMED or typed not in ("", alone):
        return
    named = f"{fraction}-{plain(tpi)} {alone}"
    hint = f"{whole}x {named}" + (f", or {size}-{plain(tpi)} {mixed}" if mixed != "UNS" else "")
    raise CalloutError(f"{size}-{plain(tpi)} can be a count and a thread {named}", *thread.span, hint)


def _per_inch(pitch: Decimal, thread: Thread) -> Decimal:
    per_inch = finite_decimal(1 / Fraction(pitch))
    near = round(1 / Fraction(pitch))
    if per_inch is None and near and abs(1 / Fraction(pitch) - near) < Fraction(1, 20):
        per_inch = Decimal(near)  # .0833P is twelve to the inch, as four places write it
    if per_inch is None:
        raise CalloutError(f"a pitch of {plain(pitch)} in is no number of threads per inch", *thread.span, "-12 UNS")
    return per_inch


def _unified_size(thread: Thread, tpi: Decimal | None) -> tuple[str, Decimal]:
    """The size and its basic major diameter; `10-24` is number 10, `1-8` is one inch: the standard pairs tell."""
    size = thread.size
    if size.endswith('"'):
        return size[:-1], Decimal(size[:-1])
    if not size.isdigit():
        return size, unified_series.basic_major(size)
    by_number, by_inch = unified_series.basic_major(f"#{size}"), Decimal(size)
    number, inch = (_listed(each, thread, tpi) for each in (by_number, by_inch))
    if number is not inch:
        return (f"#{size}", by_number) if number else (size, by_inch)
    if inch or int(size) > _GREATEST_INCH or (tpi is not None and unified.leaves_a_root(by_number, tpi)):
        hint = f'#{size}-{_tpi(tpi)} or {size}"-{_tpi(tpi)}'
        raise CalloutError(f"{size} can be a number size or inches", *thread.span, hint)
    return size, by_inch


def _listed(diameter: Decimal, thread: Thread, tpi: Decimal | None) -> bool:
    known = unified_series.standard_pitches(diameter)
    if tpi is not None:
        return tpi in known
    return unified_series.split_series(thread.series)[1] in known.values() if thread.series else False


def _tpi(tpi: Decimal | None) -> str:
    return "24" if tpi is None else plain(tpi)


def _acme(thread: Thread, _scope: Scope) -> Designated:
    diameter, tpi = unified_series.basic_major(thread.size), thread.tpi
    why: tuple[str, ...] = ()
    if tpi is None and thread.pitch is not None:
        tpi = _per_inch(thread.pitch, thread)
    if tpi is None:
        tpi = acme.preferred_tpi(diameter)
        why = (f"no threads per inch typed: {plain(tpi)}, the preferred ones (ASME B1.5)",)
    count, lead = _starts(thread, thread.pitch, tpi)
    return Designated(thread.form, thread.size, "inch", diameter, thread.pitch, tpi, count, lead, why)


def _g(thread: Thread, _scope: Scope) -> Designated:
    tpi, major, _, _ = pipe.g_basic(thread.size)
    return _on_pipe(thread, "mm", major, tpi)


def _iso7(thread: Thread, _scope: Scope) -> Designated:
    pipe.iso7_gauging(thread.size, "R")
    return _on_pipe(thread, "mm", None, pipe.g_basic(thread.size)[0])


def _npt(thread: Thread, _scope: Scope) -> Designated:
    return _on_pipe(thread, "inch", None, pipe.npt_tpi(thread.size))


def _on_pipe(thread: Thread, unit: Literal["mm", "inch"], nominal: Decimal | None, tpi: Decimal) -> Designated:
    if thread.tpi not in (None, tpi):
        name = f"{thread.size} {thread.form}" if thread.form.startswith("NPT") else f"{thread.form}{thread.size}"
        raise CalloutError(f"{name} has {plain(tpi)} threads per inch, typed are {_tpi(thread.tpi)}", *thread.span)
    if thread.starts not in (None, 1):
        raise CalloutError(f"a pipe thread of {thread.starts} starts", *thread.span)
    why = () if thread.tpi is not None else (f"{plain(tpi)} threads per inch, by its size",)
    return Designated(thread.form, thread.size, unit, nominal, None, tpi, 1, None, why)


def _starts(thread: Thread, pitch: Decimal | None, tpi: Decimal | None = None) -> tuple[int, Decimal | None]:
    """Starts and lead, from the one or the other; `tpi` are the threads per inch that an inch pitch stands for."""
    if thread.lead is None:
        count = thread.starts or 1
        return count, None if pitch is None else multiply(pitch, count)
    assert pitch is not None
    count = _rounded_starts(thread.lead, tpi) or iso_metric.starts(thread.lead, pitch)
    if thread.starts not in (None, count):
        made = f"a lead of {plain(thread.lead)} and a pitch of {plain(pitch)} make {count} starts"
        text = f"{made}, typed are {thread.starts}"
        raise CalloutError(text, *thread.span)
    return count, thread.lead


def _rounded_starts(lead: Decimal, tpi: Decimal | None) -> int:
    """The starts of a lead in inches to four places (.1667 is two of twelve to the inch), 0 where it is none."""
    if tpi is None:
        return 0
    count = round(Fraction(lead) * Fraction(tpi))
    return count if abs(Fraction(lead) - count / Fraction(tpi)) <= _HALF_PLACE else 0


def _in_unit(thread: Thread, unit: str, scope: Scope) -> Decimal:
    """The length of engagement in `unit`; a bare number has the thread's unit."""
    assert thread.engaged is not None
    typed = thread.engaged.unit or unit
    value = thread.engaged.value
    assert isinstance(value, Decimal)
    if typed == unit:
        if thread.engaged.unit is None and scope.context.unit != unit:
            scope.info(f"the length of engagement is taken in {unit}, as the thread is", thread.engaged.span)
        return value
    from sizewright.resolve.units import convert

    exact = convert(value, typed, unit)
    return Decimal(exact.numerator) / Decimal(exact.denominator)


_DESIGNATE: dict[str, Callable[[Thread, Scope], Designated]] = {
    "M": _metric, "MJ": _metric, "Tr": _trapezoidal, "UN": _unified, "Acme": _acme, "Stub Acme": _acme,
    "G": _g, "R": _iso7, "Rc": _iso7, "Rp": _iso7, "NPT": _npt, "NPTF": _npt,
}  # fmt: skip
