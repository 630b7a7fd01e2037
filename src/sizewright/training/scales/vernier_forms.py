"""The straight verniers: calipers, height gauges and depth gauges. Sources are numbered as in `catalogue`."""

from __future__ import annotations

from fractions import Fraction

from sizewright.training.scales.vernier import Vernier

_MEMORY = "from memory"
# Nibs of inside jaws, both together: 0.250 in [12]; 10 mm from memory.
_MM_NIBS, _INCH_NIBS = Fraction(10), Fraction(1, 4)


def _mm_vernier(
    kind: str,
    form: str,
    lines: int,
    covers: int,
    every: int,
    step: int,
    *,
    about: str,
    source: str,
    space: Fraction = Fraction(1),
    factor: Fraction = Fraction(3),
    upright: bool = False,
    half: int = 0,
    greatest: Fraction = Fraction(150),
) -> Vernier:
    per_mm = (1 / space).numerator
    return Vernier(
        kind=kind,
        form=form,
        unit="mm",
        reading_value=space / lines,
        greatest=greatest,
        about=about,
        source=source,
        factor=factor,
        space=space,
        lines=lines,
        covers=covers,
        ranks=(*((per_mm,) if per_mm > 1 else ()), 5 * per_mm, 10 * per_mm),
        number_every=10 * per_mm,
        vernier_every=every,
        vernier_step=step,
        vernier_half=half,
        upright=upright,
        nib=_MM_NIBS if kind == "vernier-caliper" else None,
    )


def _inch_vernier(
    kind: str,
    form: str,
    lines: int,
    space: Fraction,
    every: int,
    step: int,
    *,
    about: str,
    source: str,
    factor: Fraction,
    half: int = 0,
    upright: bool = False,
    greatest: Fraction = Fraction(6),
) -> Vernier:
    tenth = (Fraction(1, 10) / space).numerator
    return Vernier(
        kind=kind,
        form=form,
        unit="inch",
        reading_value=space / lines,
        greatest=greatest,
        about=about,
        source=source,
        factor=factor,
        space=space,
        lines=lines,
        covers=lines - 1,
        ranks=((2, 4, 40) if tenth == 4 else (2, 10, 20)),
        number_every=10 * tenth,
        digit_every=tenth,
        vernier_every=every,
        vernier_step=step,
        vernier_half=half,
        upright=upright,
        nib=_INCH_NIBS if kind == "vernier-caliper" else None,
    )


def verniers() -> list[Vernier]:
    """The forms, simplest first within each kind."""
    caliper, height, depth = "vernier-caliper", "height-gauge", "depth-gauge"
    long_02 = "49 mm in 50 spaces"
    inch_25 = "24 x 0.025 in = 0.600 in in 25 spaces"
    return [
        _mm_vernier(caliper, "0.1", 10, 9, 5, 5, about="9 mm in 10 spaces", source="[9]", factor=Fraction(6)),
        _mm_vernier(
            caliper, "0.1-extended", 10, 19, 5, 5, about="19 mm in 10 spaces", source=_MEMORY, factor=Fraction(4)
        ),
        _mm_vernier(caliper, "0.05", 20, 19, 2, 1, about="19 mm in 20 spaces", source=_MEMORY, factor=Fraction(5)),
        _mm_vernier(
            caliper, "0.05-extended", 20, 39, 2, 1, about="39 mm in 20 spaces", source=_MEMORY, factor=Fraction(3)
        ),
        _mm_vernier(caliper, "0.02", 50, 49, 5, 1, about=long_02, source="[10]", factor=Fraction(3)),
        _mm_vernier(
            caliper,
            "0.02-short",
            25,
            24,
            5,
            1,
            about="12 mm in 25 spaces, half-millimetre lines",
            source=_MEMORY,
            space=Fraction(1, 2),
            factor=Fraction(8),
        ),
        _inch_vernier(caliper, "0.001", 25, Fraction(1, 40), 5, 5, about=inch_25, source="[1][2]", factor=Fraction(6)),
        _inch_vernier(
            caliper,
            "0.001-long",
            50,
            Fraction(1, 20),
            10,
            10,
            half=5,
            about="49 x 0.050 in = 2.450 in in 50 spaces",
            source="[7]",
            factor=Fraction(5, 2),
        ),
        Vernier(
            kind=caliper,
            form="1/128",
            unit="inch",
            reading_value=Fraction(1, 128),
            greatest=Fraction(6),
            fractional=True,
            about="7/16 in in 8 spaces",
            source="[11]; length of the vernier from memory",
            factor=Fraction(5),
            space=Fraction(1, 16),
            lines=8,
            covers=7,
            ranks=(2, 4, 8, 16),
            number_every=16,
            vernier_every=4,
            vernier_step=4,
            nib=None,
        ),
        _mm_vernier(
            height,
            "0.02",
            50,
            49,
            5,
            1,
            about=long_02,
            source=_MEMORY,
            factor=Fraction(2),
            upright=True,
            greatest=Fraction(300),
        ),
        _mm_vernier(
            height,
            "0.02-short",
            25,
            24,
            5,
            1,
            about="12 mm in 25 spaces, half-millimetre lines",
            source=_MEMORY,
            space=Fraction(1, 2),
            factor=Fraction(5),
            upright=True,
            greatest=Fraction(300),
        ),
        _inch_vernier(
            height,
            "0.001",
            25,
            Fraction(1, 40),
            5,
            5,
            about=inch_25,
            source="[4]",
            factor=Fraction(5),
            upright=True,
            greatest=Fraction(12),
        ),
        _mm_vernier(
            depth, "0.05", 20, 19, 2, 1, about="19 mm in 20 spaces", source=_MEMORY, factor=Fraction(4), upright=True
        ),
        _mm_vernier(depth, "0.02", 50, 49, 5, 1, about=long_02, source=_MEMORY, factor=Fraction(2), upright=True),
        _inch_vernier(
            depth, "0.001", 25, Fraction(1, 40), 5, 5, about=inch_25, source=_MEMORY, factor=Fraction(5), upright=True
        ),
    ]
