"""Models of callouts, as the grammar can say them, for the properties."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from hypothesis import assume
from hypothesis import strategies as st

from sizewright.notation.model import (
    Amount,
    Callout,
    Chamfer,
    Classed,
    DatumElement,
    DatumFeature,
    DatumReference,
    DatumTarget,
    Deviations,
    Feature,
    Form,
    Frame,
    FrameModifier,
    GeneralNote,
    GeneralRule,
    InchFit,
    LimitPair,
    Measure,
    PlusMinus,
    Portion,
    Repeat,
    Size,
    Standing,
    Thread,
    Tolerance,
    ToleranceClass,
    UnitsNote,
)

D = Decimal

KINDS = [
    "length",
    "diameter",
    "spherical diameter",
    "radius",
    "spherical radius",
    "controlled radius",
    "square",
    "across flats",
    "thickness",
    "arc length",
    "depth",
]
MODIFIERS = ["E", "GG", "GX", "GN", "LP", "CC", "CT", "ST", "F"]
NOTES = ["far side", "both sides", "incl", "eq sp", "stock"]


def decimals(least: str, most: str) -> st.SearchStrategy[Decimal]:
    return st.builds(
        lambda value, places: value.quantize(Decimal(1).scaleb(-places)),
        st.decimals(Decimal(least), Decimal(most), places=4, allow_nan=False),
        st.integers(0, 4),
    ).filter(lambda value: value > 0)


def lengths(unit: str | None) -> st.SearchStrategy[Amount]:
    """Sizes from 1 up: smaller ones than their tolerance would be another callout."""
    decimal = st.builds(lambda v: Amount(v, Form.DECIMAL, unit), decimals("1", "999"))  # type: ignore[arg-type]
    eighths = st.builds(
        lambda n: Amount(Decimal(n) / 64, Form.FRACTION, unit),  # type: ignore[arg-type]
        st.integers(65, 6400).filter(lambda n: n % 64),
    )
    feet = st.builds(lambda n: Amount(Decimal(n) / 16, Form.FEET, "inch"), st.integers(200, 3000))
    return st.one_of(decimal, decimal, eighths, *([feet] if unit == "inch" else []))


def small(unit: str | None) -> st.SearchStrategy[Amount]:
    return st.builds(lambda v: Amount(v, Form.DECIMAL, unit), decimals("0.0001", "0.4"))  # type: ignore[arg-type]


def angles() -> st.SearchStrategy[Amount]:
    degrees = st.builds(lambda n: Amount(Fraction(n, 100), Form.DEGREES), st.integers(1, 35900))
    minutes = st.builds(lambda n: Amount(Fraction(n, 3600), Form.MINUTES), st.integers(3601, 1_000_000))
    return degrees | minutes


def _signed(amount: Amount, sign: int) -> Amount:
    return Amount(amount.value * sign, amount.form, amount.unit)


def tolerances(nominal: Amount, draw: st.DrawFn) -> Tolerance | None:
    if nominal.form in (Form.DEGREES, Form.MINUTES):
        some = st.builds(lambda n: Amount(Fraction(n, 60), Form.MINUTES), st.integers(1, 50))
    else:
        some = small(nominal.unit)
    match draw(st.integers(0, 4)):
        case 0:
            return PlusMinus(draw(some))
        case 1:
            return Deviations(draw(some), _signed(draw(some), -1))
        case 2:
            one, two = sorted((draw(some), draw(some)), key=lambda a: a.value)
            return Deviations(two, one)
        case 3:
            zero = Amount(nominal.value * 0, Form.DECIMAL, nominal.unit)
            if isinstance(nominal.value, Fraction):
                zero = Amount(Fraction(0), Form.DEGREES)
            return Deviations(draw(some), zero)
        case _:
            return None


HOLES = ["H7", "H11", "JS6", "P9", "E8", "CD8", "ZC10", "R7", "K01", "A9"]
SHAFTS = ["h6", "js7", "g6", "zc8", "ef5", "d10", "k6", "p1"]
INCH_FITS = ["RC4", "LC11", "LT1", "LN3", "FN5"]


def _class(name: str) -> ToleranceClass:
    letters = name.rstrip("0123456789")
    return ToleranceClass(letters, name[len(letters) :])


@st.composite
def classed_measures(draw: st.DrawFn, unit: str | None) -> Measure:
    nominal = draw(st.builds(lambda v: Amount(v, Form.DECIMAL, unit), decimals("3", "300")))  # type: ignore[arg-type]
    if draw(st.integers(0, 3)) == 0:
        return Measure(
            nominal, InchFit(draw(st.sampled_from(INCH_FITS)), draw(st.sampled_from([None, "hole", "shaft"])))
        )
    if draw(st.booleans()):
        pair = (_class(draw(st.sampled_from(HOLES))), _class(draw(st.sampled_from(SHAFTS))))
        return Measure(nominal, Classed(pair))
    typed = tolerances(nominal, draw)
    if isinstance(typed, Classed | InchFit):
        typed = None
    return Measure(nominal, Classed((_class(draw(st.sampled_from(HOLES + SHAFTS))),), typed))


@st.composite
def measures(draw: st.DrawFn, *, angle: bool = False) -> Measure:
    unit = draw(st.sampled_from([None, None, "mm", "inch"]))
    nominal = draw(angles() if angle else lengths(unit))
    standing = draw(st.sampled_from([Standing.PLAIN] * 4 + [Standing.REFERENCE, Standing.BASIC]))
    what = draw(st.sampled_from(["toleranced", "toleranced", "limits", "bound"]))
    if what == "limits":
        upper = Amount(nominal.value * 2, nominal.form, nominal.unit)
        if isinstance(nominal.value, Fraction):
            lower = Amount(nominal.value * 3 / 2, nominal.form)
        else:
            lower = Amount(nominal.value, Form.DECIMAL, nominal.unit)
            upper = Amount(nominal.value + draw(decimals("0.0001", "0.4")), Form.DECIMAL, nominal.unit)
        return Measure(None, LimitPair(upper, lower), None, standing)
    if what == "bound":
        return Measure(nominal, None, draw(st.sampled_from(["max", "min"])), standing)
    return Measure(nominal, tolerances(nominal, draw), None, standing)


def _may_be_radius(measure: Measure) -> bool:
    """`3 R7` after a bare number is refused: a class, or a radius beside it."""
    return isinstance(measure.tolerance, Classed) and [c.letters for c in measure.tolerance.classes] == ["R"]


@st.composite
def sizes(draw: st.DrawFn, repeat: Repeat) -> Size:
    kind = draw(st.sampled_from([*KINDS, "angle"]))
    measure = draw(measures(angle=kind == "angle"))
    if kind in ("length", "diameter", "square", "thickness") and draw(st.booleans()):
        measure = draw(classed_measures(draw(st.sampled_from([None, "mm", "inch"]))))
        assume(kind != "length" or not _may_be_radius(measure))
    extents: list[Literal["through", "through all"] | None] = [None, "through", "through all"]
    through = draw(st.sampled_from(extents)) if kind == "diameter" else None
    modifiers = tuple(draw(st.lists(st.sampled_from(MODIFIERS), max_size=2, unique=True)))
    notes = tuple(draw(st.lists(st.sampled_from(NOTES), max_size=1)))
    return Size(kind, measure, repeat, through, None, None, modifiers, notes=notes)


def _may_be_legs(one: Measure, two: Measure) -> bool:
    if one.nominal is None or two.nominal is None:
        return True
    return one.nominal.unit == two.nominal.unit and two.nominal.value not in (15, 30, 45, 60)


def _acute(angle: Measure) -> Measure:
    """No chamfer has a right angle or a blunt one."""
    if angle.nominal is None or angle.nominal.value < 90:
        return angle
    return angle._replace(nominal=angle.nominal._replace(value=angle.nominal.value % 90 or Fraction(1)))


@st.composite
def chamfers(draw: st.DrawFn, repeat: Repeat) -> Chamfer:
    size = draw(measures())
    match draw(st.integers(0, 3)):
        case 0:
            angle = draw(measures(angle=True).filter(lambda measure: measure.bound is None).map(_acute))
            angle_first = size.bound is None and draw(st.booleans())
            return Chamfer(size, angle, None, angle_first, repeat=repeat)
        case 1:
            second = draw(measures().filter(lambda measure: _may_be_legs(size, measure)))
            return Chamfer(size, None, second, repeat=repeat)
        case 2:
            plain = size.standing is Standing.PLAIN and size.nominal is not None
            return Chamfer(size, letter_c=plain, repeat=repeat)
        case _:
            return Chamfer(size, repeat=repeat)


FORMS = [
    ("counterbore", ("counterbore diameter", "counterbore depth")),
    ("spotface", ("spotface diameter", "spotface depth")),
    ("countersink", ("countersink diameter", "countersink angle")),
    ("countersink", ("countersink angle", "countersink diameter")),
    ("counterdrill", ("counterdrill diameter", "counterdrill depth", "counterdrill angle")),
    ("slot", ("slot width", "slot length", "slot depth")),
    ("keyway", ("keyway width", "keyway depth")),
    ("groove", ("groove width", "groove diameter")),
]


@st.composite
def forms(draw: st.DrawFn, repeat: Repeat) -> list[Size]:
    """The numbers of a counterbore, slot or the like, one to all of them."""
    _, kinds = draw(st.sampled_from(FORMS))
    taken = draw(st.integers(1, len(kinds)))
    notes = draw(st.sampled_from([(), (), ("far side",)]))
    made = []
    for kind in kinds[:taken]:
        measure = draw(measures(angle=kind.endswith("angle")).filter(lambda each: each.standing is Standing.PLAIN))
        made.append(Size(kind, measure, repeat))
    return [*made[:-1], made[-1]._replace(notes=notes)]


INCH_SIZES = ["#8", "1/4", "1 1/2", "0.250", "2", '10"']
SERIES = ["UNC", "UNF", "UNEF", "UN", "UNS", "UNRC", "UNJF"]


@st.composite
def designations(draw: st.DrawFn) -> Thread:
    """Threads as their forms are written, also ones that no standard has."""
    form = draw(st.sampled_from(["M", "MJ", "Tr", "UN", "Acme", "Stub Acme", "G", "R", "Rc", "Rp", "NPT", "NPTF"]))
    if form in ("M", "MJ", "Tr"):
        pitch = draw(st.none() | decimals("0.2", "8"))
        lead = None if pitch is None or draw(st.booleans()) else pitch * 2
        classes = draw(st.sampled_from([(), ("6H",), ("4g6g",), ("6H", "6g")]))
        return Thread(form, draw(st.sampled_from(["10", "16", "2.5"])), pitch, lead=lead, classes=classes)
    size = draw(st.sampled_from(INCH_SIZES if form == "UN" else INCH_SIZES[1:5]))
    turns = draw(st.sampled_from([D("20"), D("4.5"), D("13")]))
    if form in ("UN", "Acme", "Stub Acme"):
        class_ = "2A" if form == "UN" else "2G"
        classes = draw(st.sampled_from([(), (class_,)]))
        if draw(st.booleans()):
            return Thread(form, size, tpi=turns, series=_series(form, draw), classes=classes)
        return Thread(form, size, D("0.05"), lead=D("0.1"), series=_series(form, draw), classes=classes)
    size = draw(st.sampled_from(["1/4", "1 1/2", "2"]))
    if form.startswith("NPT"):
        classes = ("2",) if form == "NPTF" and draw(st.booleans()) else ()
        return Thread(form, size, tpi=draw(st.sampled_from([None, D("18"), D("11.5")])), classes=classes)
    return Thread(form, size, tpi=None, classes=("A",) if form == "G" and draw(st.booleans()) else ())


def _series(form: str, draw: st.DrawFn) -> str:
    return draw(st.sampled_from(SERIES)) if form == "UN" else ""


@st.composite
def threads(draw: st.DrawFn, repeat: Repeat) -> Thread:
    thread = draw(designations())
    metric = thread.form in ("M", "MJ", "Tr")
    return thread._replace(
        hand=draw(st.sampled_from([None, None, "left", "right"])),
        starts=draw(st.sampled_from([None, None, 2])),
        engagement=draw(st.sampled_from([None, "S", "L"])) if metric else None,
        engaged=draw(st.none() | st.just(Amount(D("0.75"), Form.DECIMAL, "inch"))),
        side=draw(st.sampled_from([None, "internal", "external"])),
        through=draw(st.sampled_from([None, None, "through"])),
        standing=draw(st.sampled_from([Standing.PLAIN, Standing.PLAIN, Standing.REFERENCE])),
        insert=draw(st.sampled_from(["", "", "sti", "helical insert, 1.5d"])),
        finish=draw(st.sampled_from(["", "", "after plating", "zinc plated"])),
        notes=tuple(draw(st.lists(st.sampled_from(["coarse", "far side"]), max_size=1))),
        repeat=repeat,
    )


CHARACTERISTICS = [
    "straightness", "flatness", "roundness", "cylindricity", "line profile", "surface profile", "angularity",
    "perpendicularity", "parallelism", "position", "concentricity", "symmetry", "circular run-out", "total run-out",
]  # fmt: skip
FRAME_MODIFIERS = ["M", "L", "S", "F", "T", "CZ", "SZ", "ST", "DYNAMIC", "ACS"]


def _modifiers(draw: st.DrawFn) -> tuple[FrameModifier, ...]:
    """Modifiers of a zone, of M, L and S one at most, and those with a length."""
    names = draw(st.lists(st.sampled_from(FRAME_MODIFIERS), max_size=2, unique=True))
    made = [FrameModifier(name) for name in names if name not in "MLS" or name == next(n for n in names if n in "MLS")]
    if draw(st.booleans()):
        made.append(FrameModifier("P", draw(st.none() | lengths(None).filter(lambda a: a.form is Form.DECIMAL))))
    if draw(st.booleans()):
        value = draw(small(draw(st.sampled_from([None, "mm", "inch"]))))
        made.append(FrameModifier(draw(st.sampled_from(["U", "UZ"])), value))
    return tuple(made)


@st.composite
def datum_references(draw: st.DrawFn) -> tuple[DatumReference, ...]:
    letters = draw(st.lists(st.sampled_from([*"ABCDEFGHKLMNPRSTUW", "AA", "BB"]), max_size=4, unique=True))
    elements = [
        DatumElement(letter, draw(st.sampled_from([(), (), ("M",), ("L",), ("S",), ("CF",)]))) for letter in letters
    ]
    if len(elements) > 1 and draw(st.booleans()):
        common = DatumReference(tuple(elements[:2]))
        if not (elements[0].modifiers or elements[1].modifiers) and all(len(e.letter) == 1 for e in elements[:2]):
            common = common._replace(modifiers=draw(st.sampled_from([(), ("M",)])))
        return (common, *(DatumReference((element,)) for element in elements[2:]))
    return tuple(DatumReference((element,)) for element in elements)


@st.composite
def frames(draw: st.DrawFn, repeat: Repeat) -> Frame:
    """One frame, whether or not its characteristic takes what it has."""
    zone = draw(small(draw(st.sampled_from([None, None, "mm", "inch"]))))
    sides = lengths(None).filter(lambda amount: amount.form is Form.DECIMAL)
    portion = draw(st.none() | st.none() | st.builds(Portion, sides, st.none() | sides, st.just(value=False)))
    if portion is not None and portion.second is None:
        portion = portion._replace(round=draw(st.booleans()))
    return Frame(
        draw(st.sampled_from(CHARACTERISTICS)),
        zone,
        draw(st.sampled_from(["", "diameter", "spherical diameter"])),
        _modifiers(draw),
        portion,
        draw(datum_references()),
        draw(st.booleans()),
        draw(st.sampled_from(["", "", "all around", "all over", "between X and Y"])),
        draw(st.sampled_from([(), (), ("each element",), ("both sides",), ("2 surfaces",)])),
        repeat=repeat,
    )


@st.composite
def framed_callouts(draw: st.DrawFn) -> Callout:
    """Frames, some of them in a stack, and datums, with or without the size that carries them."""
    repeat = Repeat(draw(st.sampled_from([1, 1, 2, 12])))
    # A class beside a size is the business of `callouts`; here only the frame under it matters.
    carrier = sizes(repeat).filter(lambda size: not isinstance(size.measure.tolerance, Classed))
    features: list[Feature] = [draw(carrier)] if draw(st.booleans()) else []
    if draw(st.booleans()):
        height, shared = draw(st.integers(2, 3)), draw(st.booleans())
        stack = [draw(frames(repeat)) for _ in range(height)]
        features += [
            frame._replace(
                characteristic=stack[0].characteristic,
                segment=(place, height),
                shared_symbol=shared,
                datums=frame.datums or (DatumReference((DatumElement("A"),)),),
            )
            for place, frame in enumerate(stack, start=1)
        ]
    else:
        features.append(draw(frames(repeat)))
    area = Portion(Amount(Decimal(12)), None, round=True)
    features += draw(
        st.sampled_from(
            [[], [DatumFeature("B", repeat)], [DatumTarget("A1", area, repeat)], [DatumTarget("C2", None, repeat)]]
        )
    )
    return Callout(tuple(features))


def _as_read(drawn: Sequence[Feature]) -> list[Feature]:
    """A depth after a thread is the thread's; nothing else has a thread's depth."""
    features: list[Feature] = []
    owner: Feature | None = None
    for feature in drawn:
        if isinstance(feature, Size) and feature.kind == "depth":
            feature = feature._replace(kind="thread depth" if isinstance(owner, Thread) else "depth")
        else:
            owner = feature
        features.append(feature)
    return features


@st.composite
def callouts(draw: st.DrawFn) -> Callout:
    typical = draw(st.booleans())
    count = draw(st.sampled_from([None, 1, 2, 12] if typical else [1, 1, 2, 12]))
    repeat = Repeat(count, typical, holes=count not in (None, 1) and draw(st.booleans()))
    one = st.one_of(sizes(repeat), sizes(repeat), chamfers(repeat), threads(repeat)).map(lambda each: [each])
    groups = draw(st.lists(one | forms(repeat), min_size=1, max_size=3))
    drawn = [feature for group in groups for feature in group]
    for before, feature in pairwise(drawn):
        if isinstance(feature, Size) and feature.kind == "depth" and isinstance(before, Size | Thread):
            assume(before.through is None)
    return Callout(tuple(_as_read(drawn)))


@st.composite
def general_notes(draw: st.DrawFn) -> Callout:
    applies = draw(
        st.lists(st.sampled_from(["0", "1", "2", "3", "fractions", "angles", "linear"]), unique=True, min_size=1)
    )
    rules = [
        GeneralRule(
            name,
            Amount(Fraction(draw(st.integers(1, 20)), 10), Form.DEGREES) if name == "angles" else draw(small(None)),
        )
        for name in applies
    ]
    if draw(st.booleans()):
        rules.append(
            GeneralRule("standard", None, "ISO 2768", draw(st.sampled_from(["m", "mK", "fH", "vL", "", "m-E"])))
        )
    return Callout((GeneralNote(tuple(rules)),))


units_notes = st.builds(lambda unit: Callout((UnitsNote(unit),)), st.sampled_from(["mm", "inch"]))
