"""The scales to practise on, by kind and form.

Sources: [1] OD1642, caliper and micrometer pages; [2] OD1621 series, vernier caliper page; [3] OD1642, vernier bevel
protractor; [4] TM 9-243, height gage; [5] TM 9-243, chapter 7; [6] instrument maker's reading instructions;
[7] instrument maker's catalogue, vernier height gauge; [9] workshop article on the 0.1 mm vernier; [10] exam
preparation note on the 0.02 mm vernier; [11] university course notes on 1/128 in verniers; [12] Navy aviation course
14003, inside measurement. "from memory" says that no printed source was read. Numbering, line lengths and the widths of
thimble spaces are common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

from sizewright.text.errors import InputError
from sizewright.training.scales.dials import Dial
from sizewright.training.scales.micrometer import Micrometer
from sizewright.training.scales.model import AnyConstruction, Unit
from sizewright.training.scales.protractor import Protractor
from sizewright.training.scales.rules import Rule
from sizewright.training.scales.vernier_forms import verniers

_MEMORY = "from memory"


def _mm_micrometer(
    kind: str, form: str, vernier: int = 0, *, backwards: bool = False, about: str, source: str
) -> Micrometer:
    return Micrometer(
        kind=kind,
        form=form,
        unit="mm",
        reading_value=Fraction(1, 100) / (vernier or 1),
        greatest=Fraction(25),
        about=about,
        source=source,
        factor=Fraction(4 if vernier else 3),
        pitch=Fraction(1, 2),
        divisions=50,
        number_every=10,
        label_unit=Fraction(1),
        ranks=(2, 10),
        split=not vernier,
        backwards=backwards,
        vernier=vernier,
        line_width=Fraction(12, 100),
        division_width=Fraction(1),
    )


def _inch_micrometer(
    kind: str, form: str, vernier: int = 0, *, backwards: bool = False, about: str, source: str
) -> Micrometer:
    return Micrometer(
        kind=kind,
        form=form,
        unit="inch",
        reading_value=Fraction(1, 1000) / (vernier or 1),
        greatest=Fraction(1),
        about=about,
        source=source,
        factor=Fraction(3),
        pitch=Fraction(1, 40),
        divisions=25,
        number_every=4,
        label_unit=Fraction(1, 10),
        ranks=(4,),
        backwards=backwards,
        vernier=vernier,
        line_width=Fraction(5, 1000),
        division_width=Fraction(7, 100 if not vernier else 125),
    )


def _micrometers() -> list[AnyConstruction]:
    micrometer, fine, depth = "micrometer", "vernier-micrometer", "depth-micrometer"
    mm_turn, inch_turn = "0.5 mm a turn, 50 thimble lines", "0.025 in a turn, 25 thimble lines"
    one_mm = Micrometer(
        kind=micrometer,
        form="0.01-1mm",
        unit="mm",
        reading_value=Fraction(1, 100),
        greatest=Fraction(25),
        source=_MEMORY,
        about="1 mm a turn, 100 thimble lines",
        factor=Fraction(3),
        pitch=Fraction(1),
        divisions=100,
        number_every=5,
        label_unit=Fraction(1),
        ranks=(5,),
        line_width=Fraction(12, 100),
        division_width=Fraction(65, 100),
    )
    return [
        _mm_micrometer(micrometer, "0.01", about=mm_turn, source="[5]"),
        one_mm,
        _inch_micrometer(micrometer, "0.001", about=inch_turn, source="[1][5]"),
        _mm_micrometer(fine, "0.001", 10, about=f"{mm_turn}, 10 spaces over 9", source="[6]; vernier from memory"),
        _mm_micrometer(fine, "0.002", 5, about=f"{mm_turn}, 5 spaces over 9", source=_MEMORY),
        _inch_micrometer(fine, "0.0001", 10, about=f"{inch_turn}, 10 spaces over 9", source="[5]"),
        _mm_micrometer(depth, "0.01", backwards=True, about=f"{mm_turn}, scales run backwards", source=_MEMORY),
        _inch_micrometer(depth, "0.001", backwards=True, about=f"{inch_turn}, scales run backwards", source=_MEMORY),
    ]


def _dials() -> list[AnyConstruction]:
    gauge, caliper = "dial", "dial-caliper"
    # The counter goes on past its greatest number to 0 again, so practice stays a turn below it.
    return [
        Dial(
            kind=gauge,
            form="0.01",
            unit="mm",
            reading_value=Fraction(1, 100),
            greatest=Fraction(9),
            turn=Fraction(1),
            divisions=100,
            counter=10,
            about="1 mm a turn, 100 lines, counter of turns",
            source=_MEMORY,
        ),
        Dial(
            kind=gauge,
            form="0.001",
            unit="inch",
            reading_value=Fraction(1, 1000),
            greatest=Fraction(9, 10),
            turn=Fraction(1, 10),
            divisions=100,
            counter=10,
            about="0.1 in a turn, 100 lines, counter of turns",
            source=_MEMORY,
        ),
        Dial(
            kind=caliper,
            form="0.02",
            unit="mm",
            reading_value=Fraction(1, 50),
            greatest=Fraction(150),
            turn=Fraction(2),
            divisions=100,
            label_step=2,
            bar_number_every=5,
            bar_ranks=(5,),
            factor=Fraction(2),
            about="bar lines each 2 mm, 2 mm a turn, 100 lines",
            source=_MEMORY,
        ),
        Dial(
            kind=caliper,
            form="0.01",
            unit="mm",
            reading_value=Fraction(1, 100),
            greatest=Fraction(150),
            turn=Fraction(1),
            divisions=100,
            bar_number_every=10,
            bar_ranks=(5, 10),
            factor=Fraction(2),
            about="bar lines each 1 mm, 1 mm a turn, 100 lines",
            source=_MEMORY,
        ),
        Dial(
            kind=caliper,
            form="0.001",
            unit="inch",
            reading_value=Fraction(1, 1000),
            greatest=Fraction(6),
            turn=Fraction(1, 10),
            divisions=100,
            bar_number_every=10,
            bar_digit_every=1,
            bar_ranks=(5, 10),
            factor=Fraction(1),
            about="bar lines each 0.1 in, 0.1 in a turn, 100 lines",
            source=_MEMORY,
        ),
        Dial(
            kind=caliper,
            form="0.001-two-tenths",
            unit="inch",
            reading_value=Fraction(1, 1000),
            greatest=Fraction(6),
            turn=Fraction(1, 5),
            divisions=200,
            number_every=10,
            bar_number_every=5,
            bar_digit_every=1,
            bar_ranks=(5,),
            factor=Fraction(1),
            about="bar lines each 0.2 in, 0.2 in a turn, 200 lines",
            source=_MEMORY,
        ),
    ]


def _rule(
    unit: Unit,
    form: str,
    space: Fraction,
    ranks: tuple[int, ...],
    greatest: Fraction,
    factor: Fraction,
    judged: bool = False,
) -> Rule:
    word = "mm" if unit == "mm" else "in"
    return Rule(
        kind="rule",
        form=form,
        unit=unit,
        reading_value=space / (2 if judged else 1),
        greatest=greatest,
        about=f"a line each {form} {word}" + (", half a space judged" if judged else ""),
        source=_MEMORY,
        factor=factor,
        fractional=unit == "inch" and "/" in form,
        space=space,
        ranks=ranks,
        number_every=(Fraction(10 if unit == "mm" else 1) / space).numerator,
        judged=judged,
        zero_error=False,
        later_start=Fraction(10 if unit == "mm" else 1),
    )


def _rules() -> list[AnyConstruction]:
    # The stretch of rule that fits the page at its factor is the range.
    return [
        _rule("mm", "1", Fraction(1), (5, 10), Fraction(100), Fraction(3, 2), judged=True),
        _rule("mm", "0.5", Fraction(1, 2), (2, 10, 20), Fraction(80), Fraction(2)),
        _rule("inch", "1/8", Fraction(1, 8), (2, 4, 8), Fraction(6), Fraction(1), judged=True),
        _rule("inch", "1/16", Fraction(1, 16), (2, 4, 8, 16), Fraction(6), Fraction(1)),
        _rule("inch", "1/32", Fraction(1, 32), (2, 4, 8, 16, 32), Fraction(3), Fraction(2)),
        _rule("inch", "1/64", Fraction(1, 64), (2, 4, 8, 16, 32, 64), Fraction(2), Fraction(3)),
        _rule("inch", "0.1", Fraction(1, 10), (5, 10), Fraction(6), Fraction(1), judged=True),
        _rule("inch", "0.02", Fraction(1, 50), (5, 25, 50), Fraction(3), Fraction(2)),
        _rule("inch", "0.01", Fraction(1, 100), (5, 10, 50, 100), Fraction(2), Fraction(3)),
    ]


def _protractors() -> list[AnyConstruction]:
    return [
        Protractor(
            kind="protractor",
            form="5'",
            unit="deg",
            reading_value=Fraction(1, 12),
            greatest=Fraction(90),
            lines=12,
            covers=23,
            about="23 degrees in 12 spaces, both ways from zero",
            source="[3]",
            factor=Fraction(4),
        ),
    ]


SCALES: tuple[AnyConstruction, ...] = (*_rules(), *verniers(), *_micrometers(), *_dials(), *_protractors())
KINDS: tuple[str, ...] = tuple(dict.fromkeys(scale.kind for scale in SCALES))


def scales_of(kind: str, unit: Unit | None = None, form: str | None = None) -> tuple[AnyConstruction, ...]:
    """The forms of `kind`, simplest first: those in `unit`, or the one named `form`.

    Raises:
        InputError: there is no such kind, or no such form of it; the message lists what there is.
    """
    of_kind = [scale for scale in SCALES if scale.kind == kind]
    if not of_kind:
        raise InputError(f"no scale {kind}; there are {', '.join(KINDS)}")
    if form is not None:
        found = [s for s in of_kind if s.form == form and (unit is None or s.unit in (unit, "deg"))]
        if not found:
            forms = ", ".join(f"{s.form} ({s.unit})" if s.unit != "deg" else s.form for s in of_kind)
            within = f" in {unit}" if unit else ""
            raise InputError(f"no form {form} of {kind}{within}; there are {forms}")
        return tuple(found)
    return tuple(scale for scale in of_kind if scale.unit in (unit or "mm", "deg"))
