"""Models of surfaces, edges, hardness, tapers, knurls and sheets, as their languages can say them."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Literal

from hypothesis import strategies as st

from sizewright.notation.model import Amount, Callout, Form, Measure, Repeat, Size
from sizewright.notation.model_surfaces import (
    CaseDepth,
    Edge,
    EdgeNote,
    ForAll,
    Hardness,
    Knurl,
    SheetGauge,
    Taper,
    Texture,
    Treatment,
)

from .strategies import decimals

D = Decimal
COUNTS = [Repeat(), Repeat(), Repeat(4), Repeat(None, True)]


@st.composite
def textures(draw: st.DrawFn) -> Texture:
    lower, upper = sorted((draw(decimals("0.01", "40")), draw(decimals("41", "90"))))
    parameter = draw(st.sampled_from(["Ra", "Rz", "Rq", "Rt", "Rv", "Wt", "", "CLA"]))
    which = draw(st.sampled_from(["upper", "lower", "both", "grade"]))
    if which == "grade":
        grade = draw(st.sampled_from(["N7", "N12", "N6-N8"]))
        return Texture(grade=grade, repeat=draw(st.sampled_from(COUNTS)))
    rule: Literal["max", "16 %", "median"] | None = draw(st.sampled_from([None, "max", "16 %", "median"]))
    return Texture(
        parameter,
        None if which == "upper" else lower,
        None if which == "lower" else upper,
        draw(st.sampled_from([None, "um", "uin"])),
        rule=rule if parameter in ("Ra", "Rz") else None,
        band=draw(st.sampled_from(["", "0.008-2.5", "-0.8"])) if parameter in ("Ra", "Rz") else "",
        removal=draw(st.sampled_from([None, "required", "prohibited", "any"])),
        lay=draw(st.sampled_from(["", "parallel", "circular"])),
        allowance=draw(st.sampled_from(["", "0.3", "0.3 mm", '0.010"'])),
        words=tuple(draw(st.lists(st.sampled_from(["all over", "ground", "ISO 1302", "all bores"]), unique=True))),
        repeat=draw(st.sampled_from(COUNTS)),
        reference=draw(st.booleans()),
    )


@st.composite
def hardnesses(draw: st.DrawFn) -> Hardness | CaseDepth:
    lower, nominal, upper = D(58), D(60), D("62.5")
    one = draw(st.sampled_from([(nominal, None, None), (None, lower, upper), (nominal, lower, upper)]))
    bound = draw(st.sampled_from([(nominal, nominal, None), (nominal, None, nominal)]))
    numbers = draw(st.sampled_from([one, bound]))
    words = draw(st.sampled_from(["", "harden", "case harden, temper"]))
    repeat = draw(st.sampled_from([Repeat(), Repeat(4), Repeat(None, True)]))
    if draw(st.booleans()):
        scale, condition = draw(
            st.sampled_from([("HRC", ""), ("HV", "30"), ("HBW", "10/3000"), ("Shore A", ""), ("HR30N", "")])
        )
        return Hardness(scale, *numbers, condition, words, draw(st.booleans()), repeat)
    small = tuple(None if number is None else number.scaleb(-2) for number in numbers)
    unit: Literal["mm", "inch"] | None = draw(st.sampled_from([None, "mm", "inch"]))
    name, limit = draw(st.sampled_from([("", ""), ("CHD", ""), ("CHD", "550 HV 1"), ("SHD", "500"), ("effective", "")]))
    return CaseDepth(small[0], small[1], small[2], unit, name, limit, words, repeat)


@st.composite
def tapers(draw: st.DrawFn) -> Taper:
    kind: Literal["taper", "slope"] = draw(st.sampled_from(["taper", "slope"]))
    standing: Literal["plain", "reference", "basic"] = draw(st.sampled_from(["plain", "reference", "basic"]))
    repeat = draw(st.sampled_from([Repeat(), Repeat(4)]))
    if draw(st.booleans()):
        two = draw(decimals("2", "100"))
        return Taper(kind, 1 / Fraction(two), "ratio", (D(1), two), None, "", "", standing, False, repeat)
    if draw(st.booleans()):
        named = draw(
            st.sampled_from([("Morse", "2"), ("Brown & Sharpe", "9"), ("Jarno", "6"), ("CAT", "40"), ("HSK", "63A")])
        )
        return Taper(named=named[0], number=named[1], repeat=repeat)
    value = draw(decimals("0.01", "0.4"))
    unit: Literal["inch per foot", "inch per inch", "mm per m", "%"] = draw(
        st.sampled_from(["inch per foot", "inch per inch", "mm per m", "%"])
    )
    tolerance = draw(st.sampled_from([None, (D("0.001"), D("-0.001"))]))
    return Taper(kind, Fraction(value), unit, (value, D(1)), tolerance, "", "", standing, False, repeat)


@st.composite
def knurls(draw: st.DrawFn) -> Knurl:
    unit: Literal["mm", "inch", "tpi", "dp"] | None = draw(st.sampled_from([None, "mm", "inch", "tpi", "dp"]))
    whole = unit in ("tpi", "dp")
    pitch = D(draw(st.integers(10, 99))) if whole else draw(st.none() | decimals("0.1", "3"))
    return Knurl(
        draw(st.sampled_from(["", "diamond", "straight", "RGE", "left hand"])),
        pitch,
        None if pitch is None else unit,
        draw(st.sampled_from([None, "medium", "fine"])),
        draw(st.booleans()),
        draw(st.sampled_from([None, D(30), D("22.5")])),
        draw(st.sampled_from(["", "DIN 82"])),
        draw(st.sampled_from([Repeat(), Repeat(4)])),
    )


def _size(kind: str, value: Decimal, bound: Literal["max", "min"] | None = None) -> Size:
    return Size(kind, Measure(Amount(value, Form.DECIMAL), None, bound))


@st.composite
def notes(draw: st.DrawFn) -> EdgeNote | ForAll | Edge | Treatment | SheetGauge:
    value = draw(decimals("0.1", "0.9"))
    bound: Literal["max"] | None = draw(st.sampled_from([None, "max"]))
    after = draw(st.sampled_from([(), ("unless otherwise specified",)]))
    match draw(st.integers(0, 4)):
        case 0:
            size = draw(st.sampled_from([None, _size("length", value, bound), _size("radius", value, bound)]))
            return EdgeNote("break all sharp edges", size, after if size else (), Repeat(None))
        case 1:
            return ForAll("all fillets and rounds", _size("radius", value, bound), after)
        case 2:
            lower = draw(st.sampled_from([D(0), -value]))
            return Edge(
                value,
                lower,
                draw(st.sampled_from([None, "mm", "inch"])),
                draw(st.sampled_from([None, "inside"])),
                Repeat(None),
            )
        case 3:
            return Treatment(draw(st.sampled_from(["nitride", "harden, temper", "q&t"])))
        case _:
            thickness = Measure(Amount(value, Form.DECIMAL))
            return SheetGauge("16", "", draw(st.sampled_from(["", "steel"])), draw(st.sampled_from([None, thickness])))


def surfaces() -> st.SearchStrategy[Callout]:
    one = st.one_of(textures(), hardnesses(), tapers(), knurls(), notes())
    return st.builds(lambda features: Callout(tuple(features)), st.lists(one, min_size=1, max_size=3))
