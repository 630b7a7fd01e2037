"""Frames with (M) or (L): the zone grows by what the size of the same piece and place leaves (ISO 2692, ASME Y14.5).

The bonus counts for any frame that may carry a modifier (position, perpendicularity, straightness of an axis ...). It
goes by the size right above the frame in the same callout, as the plan's own virtual conditions do. The shift that a
datum with (M) or (L) allows is not counted: it needs all features together. Under a guarded rule the uncertainty of the
size joins that of the frame.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_CEILING, Context, Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.instruments.budget_model import Budget
from sizewright.instruments.uncertainty import two_figures_up
from sizewright.judge.model import Outcome, Reading
from sizewright.judge.verdict import Held, decide, hold, is_number, judged, undecided
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.describe import with_unit
from sizewright.resolve.geometry_rules import RULES
from sizewright.resolve.geometry_size import OF_SIZE, right_before
from sizewright.standards.material_condition import Material, bonus
from sizewright.text.numbers import Number, add

_UP = Context(prec=40, rounding=ROUND_CEILING)


class Bonus(NamedTuple):
    """What a frame's zone may grow by.

    `size` is the line whose readings tell it; None where none can, and `missing` says why. `lower` and `upper` are the
    limits of that size; `datum_shift` tells that a datum has a modifier of its own, `reciprocity` that what the zone
    leaves may go to the size, which is not counted here.
    """

    material: Material
    size: PlanLine | None
    missing: str
    internal: bool = True
    lower: Decimal = Decimal(0)
    upper: Decimal = Decimal(0)
    datum_shift: bool = False
    reciprocity: bool = False

    @property
    def most(self) -> Decimal | None:
        """The whole size tolerance, the most there can be; None where the size is not known."""
        return None if self.size is None else self.upper - self.lower

    def earned(self, size: Number) -> Number:
        """What a feature measured as `size` adds to the zone, exact also of a size converted from the other unit."""
        if isinstance(size, Decimal):
            return bonus(size, self.lower, self.upper, self.material, internal=self.internal)
        lower, upper = Fraction(self.lower), Fraction(self.upper)
        off = size - lower if self.internal == (self.material == "M") else upper - size
        return min(max(off, Fraction(0)), upper - lower)


class SizeReading(NamedTuple):
    """The size read on the same piece at the same place, with its uncertainty and what taints it."""

    value: Number
    budget: Budget | None
    tainted: str = ""


def bonuses_of(plan: Plan) -> dict[int, Bonus]:
    """The bonus of every line that may have one, by the identity of the line, whatever the order of the lines."""
    manner = plan.title.get("manner") or ("asme" if plan.unit == "inch" else "iso")
    found: dict[int, Bonus] = {}
    before: dict[tuple[int, str], list[PlanLine]] = {}
    for line in sorted(plan.lines, key=_as_typed):
        sizes = before.setdefault((line.balloon, line.callout), [])
        bonus = bonus_of(line, sizes, asme=manner == "asme")
        if bonus is not None:
            found[id(line)] = bonus
        sizes.append(line)
    return found


def _as_typed(line: PlanLine) -> tuple[int, int]:
    """The place of a line among those of its callout: 2.1, 2.2 ... 2.10."""
    part = line.number.rpartition(".")[2]
    return line.balloon, int(part) if part.isdecimal() else 0


def bonus_of(line: PlanLine, before: Sequence[PlanLine], *, asme: bool) -> Bonus | None:
    """The bonus of a frame's line, None without (M) or (L); `before` are the lines of its callout that stand before."""
    made = line.characteristic
    if made is None or not made.limits or made.limits[0].of != "zone" or made.kind not in RULES:
        return None
    names = {str(name).split()[0] for name in _texts(made.extra.get("modifiers"))}
    material: Material = "M" if "M" in names else "L" if "L" in names else "S"
    if material == "S":
        return None
    shift = any("(M)" in name or "(L)" in name for name in _texts(made.extra.get("datums")))
    found = Bonus(material, None, "", datum_shift=shift, reciprocity="R" in names)
    if RULES[made.kind].material_doubtful("asme" if asme else "iso"):
        return found._replace(missing=f"ASME Y14.5 has no ({material}) on {made.kind}")
    return _linked(found, line, before)


def _linked(found: Bonus, line: PlanLine, before: Sequence[PlanLine]) -> Bonus:
    """`found` with the size that it goes by, or with the reason why there is none."""
    kinds = ["" if each.characteristic is None else each.characteristic.kind for each in before]
    above = right_before(kinds)
    sizes = [before[at] for at in above if kinds[at] in OF_SIZE]
    if any(kinds[at] == "thread" for at in above):
        return found._replace(missing="under a thread it goes by the pitch diameter, for which none is worked out")
    if len(sizes) != 1:
        missing = "several sizes stand before it" if sizes else "no size is typed before it in its callout"
        if above and not sizes:
            missing = f"none is worked out for the {kinds[above[0]]} above it"
        return found._replace(missing=missing)
    size, made = sizes[0], sizes[0].characteristic
    assert made is not None
    assert line.characteristic is not None
    limits = made.size
    if limits is None or not isinstance(limits.lower, Decimal) or not isinstance(limits.upper, Decimal):
        return found._replace(missing="the size before it has no two limits")
    if made.unit != line.characteristic.unit:
        return found._replace(missing="its size is in another unit")
    if made.side is None:
        return found._replace(missing="nothing tells whether its size is internal or external")
    if size.readings_per_piece != line.readings_per_piece:
        return found._replace(missing="its size is not read at the same places")
    return found._replace(size=size, internal=made.side == "internal", lower=limits.lower, upper=limits.upper)


def judged_with_bonus(reading: Reading, plain: Held, extra: Bonus, size: SizeReading | None) -> Outcome:
    """The outcome of a frame's reading: in its zone as it is, else in the zone with what the size adds."""
    value = reading.value
    alone = judged(reading, plain)
    if value is None or not is_number(value):
        return alone
    if size is None:
        return alone if alone.verdict == "accept" else _without_size(reading, value, plain, extra, alone)
    earned = extra.earned(size.value)
    held = _grown(plain, earned, size.budget)
    outcome = judged(reading, held)._replace(bonus=earned)
    if outcome.verdict != "accept" and alone.verdict == "accept":
        outcome = outcome._replace(verdict="accept", acceptance=alone.acceptance, conformance=alone.conformance)
    words = alone.why if alone.verdict == "accept" else outcome.why
    needed = alone.verdict != "accept" and outcome.verdict == "accept"
    return outcome._replace(
        why=_said(words, extra, f"bonus {with_unit(earned, plain.unit)} at size {with_unit(size.value, plain.unit)}"),
        tainted=f"the size that its bonus rests on: {size.tainted}" if needed and size.tainted else "",
    )


def _without_size(reading: Reading, value: Number, plain: Held, extra: Bonus, alone: Outcome) -> Outcome:
    """Out of the zone as it is, with nothing that tells by how much it grows."""
    if extra.most is not None:
        widest = _grown(plain, extra.most, plain.budget)
        if decide(value, widest.zones) == "reject":
            words = f"not accepted even with the whole bonus of {with_unit(extra.most, plain.unit)}"
            return alone._replace(verdict="reject", why=_said(words, extra, ""))
    missing = (
        extra.missing or f"the size (line {extra.size.number}) has no reading here" if extra.size else extra.missing
    )
    words = f"not accepted in its zone as it is; ({extra.material}) may widen it, but {missing}"
    made = undecided(reading, _said(words, extra, ""), plain.zones.limits)
    return made._replace(acceptance=alone.acceptance, doubts=alone.doubts)


def _said(words: str, extra: Bonus, earned: str) -> str:
    parts = [words]
    if earned:
        parts.append(earned)
    if extra.datum_shift:
        parts.append("the shift of the datum is not counted")
    return "; ".join(parts)


def _grown(plain: Held, earned: Number, size: Budget | None) -> Held:
    """The same zone with the bonus on it, and with the uncertainty of the size where one is taken off."""
    limits = plain.zones.limits
    assert limits.upper is not None
    grown = Limits(limits.of, limits.lower, add(limits.upper, earned))
    return hold(plain.rule, grown, joined(plain.budget, size), plain.unit, plain.kind, from_zero=plain.from_zero)


def joined(one: Budget | None, other: Budget | None) -> Budget | None:
    """The uncertainty of a sum of two readings: variances add; the fewer degrees of freedom, to be safe."""
    if one is None or other is None or one.unit != other.unit:
        return None
    freedoms = [each.dof for each in (one, other) if each.dof is not None]
    bias = abs(one.bias) + abs(other.bias)
    whole = _root(one.unrounded - abs(one.bias), other.unrounded - abs(other.bias)) + bias
    return one._replace(
        terms=one.terms + other.terms,
        combined=_root(one.combined, other.combined),
        dof=min(freedoms) if freedoms else None,
        factor=max(one.factor, other.factor),
        bias=bias,
        unrounded=whole,
        expanded=two_figures_up(whole),
    )


def _root(one: Decimal, other: Decimal) -> Decimal:
    """The root of the sum of squares, rounded up."""
    return _UP.sqrt(_UP.add(_UP.multiply(one, one), _UP.multiply(other, other)))


def _texts(found: object) -> list[str]:
    return [str(each) for each in found] if isinstance(found, list) else []
