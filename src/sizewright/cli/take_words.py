"""The sentences of a session of `take`: what a place asks for, and how a reading stands against its limits."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from sizewright.judge.asked import by_gauge
from sizewright.judge.bonus import Bonus
from sizewright.judge.places import Place
from sizewright.output.rows import Bound, Row
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.describe import UNIT_WORDS, angle_words
from sizewright.text.numbers import Number, add, finite_decimal, plain

_SHOWN = 6

INTRODUCTION = (
    "Type what is read (25.012, 3/8, .9843 in), or what a gauge says (accept, reject). A sign in front makes it a "
    "deviation from the nominal size: in mm +12 is 12 µm and -0.02 is mm; in inches +.0004. A unit may follow (+12 µm)."
)
DEVIATION = (
    "Every number is a deviation from the nominal size: in mm 12 and -12 are µm, 0.02 is mm; in inches .0004. A unit "
    "may follow (12 µm). =25.012 is the value itself. Gauges: accept, reject."
)
SAFETY = "Measure only what stands still. ? helps, q stops; every reading is on disk before the next one is asked for."
HELP = (
    ("25.012  25,012", "the value read; 3/8, 1 1/2, 30°15', and with a unit of its own .9843 in, 12 µm"),
    (
        "+12  -0.02  +.0004",
        "a deviation from the nominal size: in mm a whole number is µm; in inches with decimal mark",
    ),
    ("=-0.02", "a value whose sign is its own"),
    ("accept  reject", "what a gauge says (a, r, go, no-go, ok, fail too)"),
    ("u", "undo the last reading; it stays in the file, marked"),
    ("b  n", "back to the place before, on to the next"),
    ("g 7  g 7 2", "go to balloon 7, or to its piece 2"),
    ("i NAME  i", "the instrument for what follows; i alone: the suggested ones again"),
    ("c", "check the instrument before use, and record it"),
    ("q", "stop; the same command goes on later"),
)


def title(row: Row) -> str:
    """The first line of a place: balloon, class, callout."""
    class_ = f" [{row.class_}]" if row.class_ else ""
    return f"balloon {row.number}{class_}   {row.requirement}"


def details(place: Place, row: Row, again: bool = False) -> str:
    """What is measured, between which limits, and the size to aim for; `again`: only what differs within a line."""
    bound = bound_of(place, row)
    where_words = ", ".join(
        filter(None, (f"view {row.view}" if row.view else "", f"zone {row.zone}" if row.zone else ""))
    )
    aim = f"aim {row.aim}" if row.aim and bound and bound.lower and bound.upper and place.limits.of == "size" else ""
    if bound:
        limits = limits_words(bound, row.unit)
    else:
        limits = "by gauge" if by_gauge(place.line) else "no limits to hold a number against"
    parts = (place.of, limits, aim) if again else (row.characteristic, place.of, limits, aim, where_words)
    return "; ".join(filter(None, parts))


def bound_of(place: Place, row: Row) -> Bound | None:
    """The limits of a place as text; None where it has none."""
    return next((each for each in row.limits if each.of == place.limits.of and not each.side), None)


def limits_words(bound: Bound, unit: str) -> str:
    """A pair of limits in words: `25.000 to 25.021 mm`."""
    if bound.said_lower and bound.said_upper:
        words = f"{bound.said_lower} to {bound.said_upper}"
    elif bound.said_upper:
        words = f"{bound.said_upper} at most"
    else:
        words = f"{bound.said_lower} at least"
    return words if bound.said_upper.endswith(("°", "'", '"')) else f"{words} {unit}".rstrip()


def prompt(place: Place, row: Row, pieces: int) -> str:
    """What is asked: balloon, piece, place, what it is, unit."""
    parts = [place.of.removesuffix(" diameter")] if place.of else []
    if pieces > 1:
        parts.append(f"piece {place.piece} of {pieces}")
    if row.readings_per_piece > 1:
        parts.append(f"place {place.instance} of {row.readings_per_piece}")
    parts.append("accept or reject" if by_gauge(place.line) else row.unit)
    return f"{row.number}: {', '.join(filter(None, parts))}"


def where(key: tuple[str, int, int, str]) -> str:
    """A place in words: `balloon 2, piece 1, place 3`."""
    line, piece, instance, of = key
    return (
        f"balloon {line}, piece {piece}" + (f", place {instance}" if instance > 1 else "") + (f", {of}" if of else "")
    )


def verdict(limits: Limits, value: Number, unit: str) -> str:
    """How `value` stands against its limits as they are: to spare, or how far out."""
    exact = Fraction(value)
    under = None if limits.lower is None else exact - Fraction(limits.lower)
    over = None if limits.upper is None else Fraction(limits.upper) - exact
    if under is None and over is None:
        return "no limits, no verdict"
    if under is not None and under < 0:
        return f"REJECT, {amount(-under, unit)} under the lower limit"
    if over is not None and over < 0:
        return f"REJECT, {amount(-over, unit)} over the upper limit"
    spare = min(each for each in (under, over) if each is not None)
    if limits.of == "zone" and over is not None:
        spare = over  # nothing at all is best; the distance from zero is no room
    return f"accept, {amount(spare, unit)} to spare" if spare else "accept, just at the limit"


def widened(limits: Limits, value: Number, unit: str, bonus: Bonus, size: Number | None) -> str:
    """How `value` stands that is beyond its zone as drawn, where (M) or (L) may widen it; `size` where it is read."""
    assert limits.upper is not None
    earned = bonus.most if size is None else bonus.earned(size)
    if earned is None:
        return f"beyond the zone as drawn; ({bonus.material}) may widen it, but {bonus.missing}: undecided"
    judged = verdict(Limits(limits.of, limits.lower, add(limits.upper, earned)), value, unit)
    if size is not None:
        return f"{judged}, with a bonus of {amount(earned, unit)} at size {amount(size, unit)}"
    if judged[0] == "R":
        return f"{judged} with the whole bonus of {amount(earned, unit)}"
    assert bonus.size is not None
    told = f"by {amount(earned, unit)} at most: the size, balloon {bonus.size.number}, is not read here yet"
    return f"beyond the zone as drawn; ({bonus.material}) may widen it {told}"


def amount(value: Number, unit: str) -> str:
    """A number with its unit; one without an end in decimals to six places."""
    if unit == "deg":
        return angle_words(value)
    exact = value if isinstance(value, Decimal) else finite_decimal(value)  # a decimal keeps the zeros as typed
    if exact is None or -int(exact.as_tuple().exponent) > _SHOWN:
        scaled = round(Fraction(value) * 10**_SHOWN)
        exact = finite_decimal(Fraction(scaled, 10**_SHOWN)) or Decimal(0)
        return f"about {plain(exact)} {UNIT_WORDS.get(unit, unit)}".rstrip()
    return f"{plain(exact)} {UNIT_WORDS.get(unit, unit)}".rstrip()
