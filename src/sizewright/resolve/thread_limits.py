"""Limits of a designated thread by class and side, and the class that is meant where none is typed."""

from collections.abc import Callable
from decimal import Decimal
from typing import Literal, NamedTuple

from sizewright.notation.model import Thread
from sizewright.resolve.thread_forms import Designated, undefined_at
from sizewright.standards.threads import acme, iso_metric, mj, pipe, trapezoidal, unified
from sizewright.standards.threads.model import TaperGauging, ThreadLimits
from sizewright.text.numbers import plain

Found = ThreadLimits | TaperGauging
_NONE = (None, None)
_OLDER = "1989"


def limits_of(designated: Designated, thread: Thread, class_: str | None, *, internal: bool, edition: str) -> Found:
    """The limits of one side by class `class_` (None where the form has none).

    Raises:
        CalloutError: the standard has no such class at this thread.
    """
    with undefined_at(thread.class_span if thread.class_span[1] else thread.span):
        return _LIMITS[thread.form](_Ask(designated, thread, class_, internal, edition))


def default_class(designated: Designated, thread: Thread, *, internal: bool) -> tuple[str | None, str]:
    """The class that a thread without one has, and where that stands (None and nothing where it has no classes)."""
    form, diameter, pitch = thread.form, designated.nominal, designated.pitch
    match form:
        case "M" if diameter is not None and pitch is not None:
            return iso_metric.default_class(diameter, pitch, internal), "ISO 965-1: the class meant where none is typed"
        case "MJ" if diameter is not None:
            return mj.default_class(diameter, internal), "the usual one of ISO 5855-2"
        case "UN":
            source = "ASME B1.15" if "J" in designated.form else "the one of general use, ASME B1.1"
            return unified.default_class(designated.form, internal), source
        case "Tr":
            return trapezoidal.default_class(internal), "ISO 2903: tolerance quality medium"
        case "Acme" | "Stub Acme":
            return acme.DEFAULT_CLASS, "ASME B1.5: preferred for general purpose" if form == "Acme" else "ASME B1.8"
        case _:
            return None, ""


def side_of(thread: Thread, class_: str) -> Literal["internal", "external"] | None:
    """The side that a class tells, None where it does not."""
    match thread.form:
        case "M" | "MJ" | "Tr":
            letters = [char for char in class_ if char.isalpha()]
            return "internal" if all(char.isupper() for char in letters) else "external"
        case "UN":
            return "internal" if class_.endswith("B") else "external"
        case "G":
            return "external"
        case _:
            return None


class _Ask(NamedTuple):
    """One side of one thread by one class."""

    made: Designated
    thread: Thread
    typed: str | None
    internal: bool
    edition: str

    @property
    def class_(self) -> str:
        """The class, of a form that always has one."""
        assert self.typed is not None
        return self.typed

    @property
    def diameter(self) -> Decimal:
        """The nominal diameter, of a form whose size is one."""
        assert self.made.nominal is not None
        return self.made.nominal

    @property
    def pitch(self) -> Decimal:
        """The pitch in mm of a metric form."""
        assert self.made.pitch is not None
        return self.made.pitch

    @property
    def tpi(self) -> Decimal:
        """The threads per inch of an inch form."""
        assert self.made.tpi is not None
        return self.made.tpi


def _m(ask: _Ask) -> Found:
    group, lead = ask.made.engagement, ask.made.lead
    return iso_metric.metric_limits(ask.diameter, ask.pitch, ask.class_, ask.internal, group, lead=lead)


def _mj(ask: _Ask) -> Found:
    return mj.mj_limits(ask.diameter, ask.pitch, ask.class_, ask.internal, ask.made.engagement)


def _tr(ask: _Ask) -> Found:
    return trapezoidal.tr_limits(ask.diameter, ask.pitch, ask.class_, ask.internal, ask.made.lead)


def _unified(ask: _Ask) -> Found:
    found, older = (
        unified.unified_limits(
            ask.diameter, ask.tpi, ask.class_, ask.made.form, length_of_engagement=ask.made.engaged, edition=edition
        )
        for edition in (ask.edition, _OLDER)
    )
    remarks = list(found.remarks)
    if ask.made.starts > 1:
        remarks.append(f"{ask.made.starts} starts: limits by the pitch, not the lead")
    differing = [
        f"{name} {plain(old)}"
        for name in ("major", "pitch", "minor")
        for old, new in zip(getattr(older, name), getattr(found, name), strict=True)
        if old is not None and old != new
    ]
    if differing:
        remarks.append(f"prints of the editions to 1989 round otherwise: {', '.join(differing)} in")
    return found._replace(remarks=tuple(remarks))


def _acme(ask: _Ask) -> Found:
    if ask.class_ in acme.CENTRALIZING:
        said = f"a centralizing Acme thread (ASME B1.5): the limits of class {ask.class_} are not held here"
        return ThreadLimits(_NONE, _NONE, _NONE, (said,))
    return acme.acme_limits(ask.diameter, ask.tpi, ask.class_, ask.internal)


def _stub(ask: _Ask) -> Found:
    words = " and ".join(plain(value) for value in acme.stub_basic(ask.diameter, ask.tpi))
    said = f"Stub Acme (ASME B1.8): basic pitch and minor diameter {words} in; its limits are not held here"
    return ThreadLimits(_NONE, _NONE, _NONE, (said,))


def _g(ask: _Ask) -> Found:
    return pipe.g_limits(ask.made.size, ask.internal, ask.typed)


def _iso7(ask: _Ask) -> Found:
    form = ask.thread.form
    if form == "Rp":
        return pipe.rp_limits(ask.made.size)
    return pipe.iso7_gauging(ask.made.size, "R" if form == "R" else "Rc")


def _npt(ask: _Ask) -> Found:
    kind: pipe.NptKind = "NPTF" if ask.thread.form == "NPTF" else "NPT"
    return pipe.npt_gauging(ask.made.size, ask.internal, kind, int(ask.typed) if ask.typed else None)


_LIMITS: dict[str, Callable[[_Ask], Found]] = {
    "M": _m, "MJ": _mj, "Tr": _tr, "UN": _unified, "Acme": _acme, "Stub Acme": _stub,
    "G": _g, "R": _iso7, "Rc": _iso7, "Rp": _iso7, "NPT": _npt, "NPTF": _npt,
}  # fmt: skip
