"""Sample plans: invented parts of a small telescope-mount workshop."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

from sizewright.instruments.model import Choice, Instrument, Kind
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Characteristic, Either, Limits, Remark, Status
from sizewright.sheet.model import Fault, Sheet

D = Decimal
LONG_REMARK = (
    "the bore is interrupted by the oil groove at 90°, so measure across the land in two directions and write down the "
    "smaller reading; the seat carries the whole weight of the tube and decides how the worm runs"
)
CAUTIONS = (
    "The drawing and the standards it calls govern; this plan is a help in reading them.",
    "Measure only what stands still, deburred, clean and at temperature.",
    "Safety-critical parts belong to qualified people and local rules.",
)


def kind(name: str, attribute: bool = False, field_check: str = "wipe the faces, close, reads zero") -> Kind:
    return Kind(
        name=name, reaches=frozenset({"outside"}), direct=not attribute, attribute=attribute, rank=1,
        least_inside=None, greatest=D(1000), access="", field_check=field_check,
        method="close on the part, read, repeat",
        mistakes="", mpe_constant=D("0.004"), mpe_slope=D(0), repeatability=D("0.001"), resolution=D("0.001"),
        source="invented for tests",
    )  # fmt: skip


CALIPER = Instrument(
    "digital caliper 150", kind("caliper"), "mm", D(0), D(150), D("0.01"), D("0.03"), D(0), owned=3, place="drawer 2",
)  # fmt: skip
BORE_GAUGE = Instrument(
    "three-point bore gauge 50-63", kind("bore gauge", field_check="reads the setting ring to 0.002"), "mm",
    D(50), D(63), D("0.001"), D("0.003"), D(0), serial="BG-0417", due=date(2027, 3, 1), place="cabinet A",
)  # fmt: skip
THREAD_GAUGE = Instrument(
    "thread ring gauge M42x1.5 6g", kind("thread gauge", True, "no nicks, turns freely on the setting plug"), "mm",
    D(42), D(42), None, None, D(0), place="gauge cupboard",
)  # fmt: skip


def choice(instrument: Instrument | None, resolution: str | None = "0.01", **more: object) -> Choice:
    asked = None if resolution is None else D(resolution)
    given = {"why": "the simplest that passes", "unit": "mm"} | more
    return Choice(instrument=instrument, resolution_asked=asked, **given)  # type: ignore[arg-type]


def size(lower: str | None, upper: str | None, of: str = "size") -> Limits:
    return Limits(of, None if lower is None else D(lower), None if upper is None else D(upper))


def line(number: str, callout: str, characteristic: Characteristic | None, **more: object) -> PlanLine:
    limits = characteristic.limits if characteristic else ()
    given: dict[str, object] = {
        "view": "front", "zone": "", "class_": None, "remark": "",
        "other_limits": (), "other_unit": None, "choice": None,
        "readings_per_piece": (characteristic.count or 1) if characteristic and limits else 0,
    } | more  # fmt: skip
    return PlanLine(
        number=number,
        balloon=int(number.split(".")[0]),
        callout=callout,
        characteristic=characteristic,
        **given,  # type: ignore[arg-type]
    )


def toleranced(kind_: str, lower: str | None, upper: str | None, unit: str = "mm", **more: object) -> Characteristic:
    return Characteristic(kind_, unit, Status.TOLERANCED, limits=(size(lower, upper),), **more)  # type: ignore[arg-type]


THREAD_LIMITS = (
    size("41.732", "41.968", "major diameter"),
    size("40.854", "40.994", "pitch diameter"),
    size(None, "40.344", "minor diameter"),
)
EITHER = Either(
    internal=(size("9.026", "9.206", "pitch diameter"), size("8.376", "8.676", "minor diameter")),
    external=(size("9.732", "9.968", "major diameter"), size("8.862", "8.994", "pitch diameter")),
)
FAULT = Fault(9, 9, 2, "the class Q7 does not exist", "7: Ø62 Q7", "P7 or R7 would read")


def mm_lines() -> tuple[PlanLine, ...]:
    """One line of every status and form."""
    bore = Characteristic("diameter", "mm", Status.TOLERANCED, D(62), (size("62.000", "62.030"),), "internal", 1,
                          ("H7 of ISO 286-2: 0 / +0.030",), "H7")  # fmt: skip
    thread = Characteristic("thread", "mm", Status.TOLERANCED, D(42), THREAD_LIMITS, "external", 1, ("6g",), "6g",
                            extra={"thread": {"form": "M", "size": "42", "pitch": "1.5", "class": "6g"}})  # fmt: skip
    angle = Characteristic("angle", "deg", Status.TOLERANCED, Fraction(30),
                           (Limits("size", Fraction(59, 2), Fraction(91, 3)),))  # fmt: skip
    return (
        line("1", "Ø62 H7", bore, zone="B2", class_="critical", remark=LONG_REMARK,
             choice=choice(BORE_GAUGE, "0.003"), other_limits=(size("2.44095", "2.44212"),), other_unit="inch"),
        line("2.1", "4x Ø6.6 ±0.1 THRU\ncbore Ø11 depth 6.4", toleranced("diameter", "6.5", "6.7", count=4,
             side="internal"), zone="C3", choice=choice(CALIPER)),
        line("2.2", "4x Ø6.6 ±0.1 THRU\ncbore Ø11 depth 6.4", toleranced("counterbore diameter", "10.8", "11.2",
             count=4), zone="C3", choice=choice(CALIPER, "0.04")),
        line("3", "120.5 ±0.1", toleranced("length", "120.4", "120.6"), class_="major",
             choice=choice(CALIPER, "0.02", falls_short=True,
                           why="T/2U is 2.1, less than the 4 asked for; a 125-150 micrometer would do")),
        line("4", "12 MAX", toleranced("depth", None, "12"), choice=choice(CALIPER, "0.1")),
        line("5", "M42x1.5-6g", thread, choice=choice(THREAD_GAUGE, None), zone="D4"),
        line("6", "(84)", Characteristic("length", "mm", Status.REFERENCE, D(84))),
        line("7", "[45°]", Characteristic("angle", "deg", Status.BASIC, Fraction(45)), view="section A-A"),
        line("8", "R3", Characteristic("radius", "mm", Status.UNTOLERANCED, D(3), count=None), view="section A-A"),
        line("9", "Ø30 k6 (+0.020/+0.002)", Characteristic("diameter", "mm", Status.CONFLICT, D(30), (), "external", 1,
             ("k6 gives +0.015 / +0.002", "typed are +0.020 / +0.002")), view="section A-A",
             remarks=(Remark("warning", "k6 gives +0.015 / +0.002 but +0.020 / +0.002 is typed", 9),)),
        line("10", "Ø62 Q7", None, view="section A-A", unread="the class Q7 does not exist"),
        line("11", "30° -0°30'/+0°20'", angle, view="section A-A", choice=choice(None, None, why="no protractor")),
        line("12", "M10x1.5", Characteristic("thread", "mm", Status.TOLERANCED, D(10), either=EITHER),
             view="section A-A", readings_per_piece=1,
             remarks=(Remark("info", "the class 6H or 6g is the default of ISO 965-1"),)),
        line("13", "-0.25 +0.05/-0.10", toleranced("length", "-0.35", "-0.20"), view="section A-A"),
        line("14", "M42x1.5-6g by wires", thread, view="section A-A", choice=choice(CALIPER, "0.001",
             method="three wires of 0.895 and micrometer: 42.139 to 42.279 over the wires")),
    )  # fmt: skip


def plan_of(
    lines: tuple[PlanLine, ...], pieces: int = 2, unit: str = "mm", title: dict[str, str] | None = None
) -> Plan:
    needed = {CALIPER.name: CALIPER, BORE_GAUGE.name: BORE_GAUGE, THREAD_GAUGE.name: THREAD_GAUGE}
    used = {
        name: tuple(ln.number for ln in lines if ln.choice and ln.choice.instrument == tool)
        for name, tool in needed.items()
    }
    given = {"part": "Worm housing", "drawing": "EQ-310", "revision": "C", "unit": unit, "manner": "iso",
             "general": "ISO 2768-mK", "material": "EN AW-6082"} | (title or {})  # fmt: skip
    return Plan(
        sheet=Sheet(Path("worm-housing.sheet")),
        title=given,
        unit=unit,
        pieces=pieces,
        lines=tuple(each._replace(pieces=pieces) for each in lines),
        instruments=tuple((needed[name], numbers) for name, numbers in used.items() if numbers),
        faults=(FAULT,) if any(ln.unread for ln in lines) else (),
        cautions=CAUTIONS,
    )


def housing(pieces: int = 2) -> Plan:
    """The metric part with a line of every status."""
    return plan_of(mm_lines(), pieces)


def saddle() -> Plan:
    """An inch part; one callout is metric."""
    return plan_of(
        (
            line("1", '1.2500 +.0005/-.0000', toleranced("diameter", "1.2500", "1.2505", "inch", side="internal"),
                 choice=choice(CALIPER, "0.00005", unit="inch"), view=""),
            line("2", "3X .257 ±.005", toleranced("diameter", ".252", ".262", "inch", count=3), view=""),
            line("3", "Ø6 h6 mm", toleranced("diameter", "5.992", "6.000"), view="",
                 other_limits=(size("0.23591", "0.23622"),), other_unit="inch", readings_per_piece=1),
            line("4", "63 uin", Characteristic("surface texture", "uin", Status.TOLERANCED, D(63),
                 (size(None, "63", "value"),)), view=""),
        ),
        pieces=1, unit="inch",
        title={"part": "Dovetail saddle", "drawing": "EQ-207", "revision": "A", "manner": "asme", "general": ""},
    )  # fmt: skip


def long_plan(pieces: int = 3) -> Plan:
    """Thirty lines with counts over several pages."""
    lines = tuple(
        line(str(i), f"{1 + i % 5}x Ø{i}.5 ±0.0{1 + i % 9}", toleranced("diameter", f"{i}.4{i % 9}", f"{i}.5{i % 9}",
             count=1 + i % 5), view="front" if i < 16 else "top", zone=f"{'ABCD'[i % 4]}{i % 8 + 1}",
             choice=choice(CALIPER), remark=LONG_REMARK if i % 7 == 0 else "")
        for i in range(1, 31)
    )  # fmt: skip
    return plan_of(lines, pieces, title={"part": "Tube ring", "drawing": "EQ-118"})


INJECTIONS = ("=1+1", "+1+1", "-1+1", "@SUM(A1)", "=cmd|' /C calc'!A0", "#N/A", "'=1", "<b>&amp;</b>", "[red]x[/red]")
ACTING = "a\x1b[31mred\x1b[0m\x07\x00\u202eb\x9b2J\ufffe"


def hostile() -> Plan:
    """Typed texts that want to be more than text."""
    lines = tuple(
        line(str(i), text, toleranced("length", "1.0", "2.0"), view=text, zone=text, remark=text, unread="")
        for i, text in enumerate((*INJECTIONS, ACTING), start=1)
    )
    return plan_of(lines, pieces=1, title={"part": "=1+1", "drawing": ACTING, "revision": "& &P"})
