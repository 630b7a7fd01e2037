"""Unified inch threads (ASME B1.1; UNJ: ASME B1.15): limits of size by diameter, pitch, class and edition."""

from decimal import Decimal
from typing import Literal, NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.threads.exact import exactly, rounded, trimmed
from sizewright.standards.threads.mj import internal_minor_basic, root_limits
from sizewright.standards.threads.model import Doubt, ThreadLimits
from sizewright.standards.threads.unified_rules import (
    CLASS_FACTORS,
    EDITIONS,
    Edition,
    class_2a_tolerance,
    edition_of,
    engagement_factors,
    height,
    internal_minor,
    major_tolerance,
    minor_tolerance,
    printed_limits,
    standard_engagement,
    unr_depth,
)
from sizewright.standards.threads.unified_series import (
    basic_major,
    check_series,
    near_threads,
    series_of,
    size_name,
    split_series,
)

__all__ = [
    "EDITIONS",
    "Edition",
    "allowance",
    "basic_major",
    "leaves_a_root",
    "series_of",
    "size_name",
    "unified_limits",
]

UnifiedRoot = Literal["tabulated", "flat"]


class _Thread(NamedTuple):
    """A checked callout with everything the rules need; lengths in inches."""

    diameter: Decimal
    tpi: Decimal
    series: str
    root: str
    thread_class: str
    edition: Edition
    pitch_factor: Decimal
    minor_factor: Decimal
    printed: dict[str, Decimal]

    @property
    def two_a(self) -> Decimal:
        return class_2a_tolerance(self.diameter, self.tpi, self.series, self.edition)

    @property
    def pitch_tolerance(self) -> Decimal:
        width = CLASS_FACTORS[self.thread_class] * self.two_a * self.pitch_factor
        return rounded(width, self.edition.part_places)

    @property
    def allowance(self) -> Decimal:
        """ASME B1.1 paragraph 5.8.1: 0.3 of the class 2A tolerance of the standard length, classes 1A and 2A only."""
        if self.thread_class not in ("1A", "2A"):
            return Decimal(0)
        return self.printed.get("allowance", rounded(Decimal("0.3") * self.two_a, 4))


def _check_class(diameter: Decimal, thread_class: str, series: str, root: str) -> None:
    if thread_class not in CLASS_FACTORS:
        raise NotDefined(f"{thread_class} is not a class of Unified threads.", tuple(CLASS_FACTORS))
    side = thread_class[1]
    usual = (f"2{side}", f"3{side}")
    if root == "R" and side == "B":
        raise NotDefined("UNR is a form of external threads only; its mate is an internal UN thread.", ("UN",))
    if root == "J" and thread_class[0] != "3":
        raise NotDefined(f"Class {thread_class} is not given for UNJ threads.", (f"3{side}",))
    if thread_class[0] == "1" and (series not in ("UNC", "UNF") or diameter < Decimal("0.25")):
        raise NotDefined(f"ASME B1.1 gives class {thread_class} only for UNC and UNF of 1/4 in and larger.", usual)


def leaves_a_root(diameter: Decimal, tpi: Decimal) -> bool:
    """Tell whether the UNR root lies above half the diameter (inches), as in every series of the standard."""
    return diameter > 0 and tpi > 0 and diameter * tpi >= Decimal("2.4")


def _check_form(diameter: Decimal, tpi: Decimal) -> None:
    if not leaves_a_root(diameter, tpi):
        message = f"{trimmed(tpi)} threads per inch do not go with a diameter of {trimmed(diameter)} in."
        raise NotDefined(message, near_threads(diameter, tpi))


@exactly
def _prepare(
    diameter: Decimal, tpi: Decimal, thread_class: str, series: str | None, length: Decimal | None, edition: str
) -> tuple[_Thread, list[str], list[str]]:
    rules = edition_of(edition)
    # FED-STD-H28/2B 5.3: the nominal size is a decimal; B1.1 carries it to four places.
    size = rounded(diameter, 4)
    _check_form(size, tpi)
    root, typed = split_series(series or series_of(size, tpi))
    ruling, remarks = check_series(size, tpi, typed)
    _check_class(size, thread_class, ruling, root)
    pitch_factor = minor_factor = Decimal(1)
    _, rule = standard_engagement(size, tpi, ruling)
    reach = "1.5 D" if rule == "D" else "15 P"
    why = [rules.name, f"series UN{root}{ruling[2:]}, LE = {rule}, tolerances serve 5 P to {reach}"]
    if length is not None:
        pitch_factor, minor_factor, reason = engagement_factors(size, tpi, ruling, length)
        why.append(reason)
    printed = printed_limits(size, tpi, thread_class, rules)
    thread = _Thread(size, tpi, ruling, root, thread_class, rules, pitch_factor, minor_factor, printed)
    notes = list(remarks)
    if printed:
        notes.append(f"as printed, against the rounding rule of the edition: {', '.join(sorted(printed))}")
    if thread_class == "2A" and root != "J":
        notes.append("with an additive finish the maxima after coating may reach those of class 3A (ASME B1.1)")
    if rules.part_places == 4:
        notes.append("older four-place rounding; ASME B1.1-2003 and later may differ by 0.0001")
    return thread, why, notes


@exactly
def allowance(diameter: Decimal, tpi: Decimal, thread_class: str, *, edition: str = "2003") -> Decimal:
    """Return the allowance es in inches of a class, zero for 3A and all internal classes (ASME B1.1 5.8.1).

    Raises:
        NotDefined: The class is not given for that thread.
    """
    thread, _, _ = _prepare(diameter, tpi, thread_class, None, None, edition)
    return thread.allowance


def _external_minor(
    thread: _Thread, major_max: Decimal, pitch: tuple[Decimal, Decimal], root: UnifiedRoot
) -> tuple[tuple[Decimal | None, Decimal | None], list[str], list[str]]:
    """Return limits, reasons and remarks of the external minor diameter."""
    pitch_min, pitch_max = pitch
    p = 1 / thread.tpi
    if thread.root == "J":
        lower, upper = root_limits(pitch_min, pitch_max, p)
        return (rounded(lower, 4), rounded(upper, 4)), ["minor: root radius 0.15011 P to 0.18042 P, ASME B1.15"], []
    flat = rounded(major_max - height(10, thread.tpi, thread.edition), 4)
    if root == "flat" and thread.root != "R":
        return (None, flat), ["minor max: basic minor less allowance, flat root of UN"], []
    rounded_root = rounded(major_max - unr_depth(thread.tpi, thread.edition), 4)
    unr = thread.printed.get("minor_max", rounded_root)
    why = ["minor max: UNR reference value that the limit tables print, major max - 1.190785 P"]
    remarks = ["the external minor diameter is a reference value: the GO gauge checks it"]
    if thread.root != "R":
        remarks.append(f"a UN thread may have a flat root up to {trimmed(flat)} in")
    return (None, unr), why, remarks


def _external(thread: _Thread, root: UnifiedRoot) -> ThreadLimits:
    """Apply ASME B1.1 paragraph 8.3.1, each limit rounded once from the already rounded maximum."""
    td = major_tolerance(thread.tpi, thread.thread_class, thread.edition)
    major_max = thread.diameter - thread.allowance
    pitch_max = rounded(major_max - height(6, thread.tpi, thread.edition), 4)
    pitch_min = thread.printed.get("pitch_min", rounded(pitch_max - thread.pitch_tolerance, 4))
    minor, why, remarks = _external_minor(thread, major_max, (pitch_min, pitch_max), root)
    return ThreadLimits(
        major=(rounded(major_max - td, 4), rounded(major_max, 4)),
        pitch=(pitch_min, pitch_max),
        minor=minor,
        why=(f"allowance {thread.allowance} in", f"Td {td} in", f"Td2 {thread.pitch_tolerance} in", *why),
        remarks=tuple(remarks),
    )


def _internal(thread: _Thread) -> ThreadLimits:
    """Apply ASME B1.1 paragraph 8.3.2."""
    edition, diameter, tpi = thread.edition, thread.diameter, thread.tpi
    pitch_min = rounded(diameter - height(6, tpi, edition), 4)
    pitch_max = thread.printed.get("pitch_max", rounded(pitch_min + thread.pitch_tolerance, 4))
    why = [f"TD2 {thread.pitch_tolerance} in"]
    remarks = ["the internal major diameter has no upper limit: the GO gauge checks the lower one"]
    minor: tuple[Decimal | None, Decimal | None]
    if thread.root == "J":
        minor = (rounded(internal_minor_basic(diameter, 1 / tpi), 4), None)
        why.append("minor min: D - 0.974279 P, ASME B1.15")
        remarks.append(
            Doubt("the upper limit of the UNJ minor diameter is not held here: take it from the table of ASME B1.15")
        )
    else:
        basic = diameter - height(10, tpi, edition)
        width = minor_tolerance(diameter, tpi, thread.thread_class, edition, thread.minor_factor)
        upper = internal_minor(basic + width, diameter, thread.thread_class, upper=True, edition=edition)
        lower = internal_minor(basic, diameter, thread.thread_class, upper=False, edition=edition)
        minor = (lower, thread.printed.get("minor_max", upper))
        why.append(f"TD1 {width} in")
    return ThreadLimits((rounded(diameter, 4), None), (pitch_min, pitch_max), minor, tuple(why), tuple(remarks))


def default_class(series: str, internal: bool) -> str:
    """Return the class of general use, 2A or 2B (ASME B1.1); UNJ threads have class 3 only (ASME B1.15)."""
    return ("3" if "J" in series else "2") + ("B" if internal else "A")


@exactly
def unified_limits(
    diameter: Decimal,
    tpi: Decimal,
    thread_class: str,
    series: str | None = None,
    *,
    length_of_engagement: Decimal | None = None,
    edition: str = "2003",
    root: UnifiedRoot = "tabulated",
) -> ThreadLimits:
    """Return the limits in inches of a Unified thread.

    Args:
        diameter: Basic major diameter in inches (see `basic_major` for written sizes).
        tpi: Threads per inch.
        thread_class: 1A 2A 3A for external, 1B 2B 3B for internal threads.
        series: UNC, UNF, UNEF, UN, UNS, with R (UNRC ...) or J (UNJC ...); by default as Table 2 has it.
        length_of_engagement: Length in inches where one is stated; it moves tolerances outside the usual range.
        edition: Key of `EDITIONS`: `2003` for the editions in force, `1989` for older prints.
        root: Upper limit of the external minor diameter of UN threads: `tabulated`, the UNR reference value that the
            limit tables print; `flat`, the basic minor diameter less the allowance.

    Raises:
        NotDefined: The size has no such pitch in that series, the class is not given for it, or the length of
            engagement lies outside the rules.
    """
    thread, why, notes = _prepare(diameter, tpi, thread_class, series, length_of_engagement, edition)
    limits = _external(thread, root) if thread_class.endswith("A") else _internal(thread)
    return ThreadLimits(limits.major, limits.pitch, limits.minor, (*why, *limits.why), (*notes, *limits.remarks))
