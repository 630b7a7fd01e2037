"""What every form of a plan shows of its lines: one `Row` a line, all of it text that is ready to be read.

Numbers are written by `sizewright.text.numbers.plain`, texts are passed through `sizewright.output.safe.visible`.
"""

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from sizewright.instruments.amounts import spoken
from sizewright.instruments.model import Choice
from sizewright.output.safe import visible
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Limits, Status
from sizewright.resolve.describe import angle_words, shown, status_words, unit_shown
from sizewright.text.numbers import Number, plain

_LONG = 8  # an angle of more figures than this is said in minutes


class Bound(NamedTuple):
    """One pair of limits as text; a missing bound is empty. `side` is told only where both sides are shown.

    `words_lower` and `words_upper` are what people are told instead, where it is something else: an angle that has no
    short decimal is in degrees and minutes.
    """

    of: str
    lower: str
    upper: str
    side: str = ""
    words_lower: str = ""
    words_upper: str = ""

    @property
    def said_lower(self) -> str:
        """The lower bound for people."""
        return self.words_lower or self.lower

    @property
    def said_upper(self) -> str:
        """The upper bound for people."""
        return self.words_upper or self.upper

    @property
    def label(self) -> str:
        """What is bounded, with its side where that is needed: `external pitch diameter`."""
        return f"{self.side} {self.of}".strip()


class Row(NamedTuple):
    """One line of the plan as text. `standing` says in words why there is no verdict, empty where there is one.

    `limits` and `aim` are in `unit`, `other_limits` in `other_unit`. `resolution` is the resolution asked for, with its
    unit; `why` says where the limits come from. `tool` names the instrument
    alone, `by_gauge` marks an instrument that answers accept or reject instead of
    a number. `pieces` is how many pieces the line is checked on, `sample` why so many. `notes` belong to this line
    alone, most serious first. `widens` marks a zone that (M) or (L) may widen by what its size leaves.
    """

    number: str
    view: str
    zone: str
    class_: str
    requirement: str
    characteristic: str
    standing: str
    limits: tuple[Bound, ...]
    unit: str
    other_limits: tuple[Bound, ...]
    other_unit: str
    aim: str
    instrument: str
    tool: str
    resolution: str
    method: str
    by_gauge: bool
    readings_per_piece: int
    pieces: int
    sample: str
    why: str
    notes: tuple[str, ...]
    widens: bool = False

    @property
    def either(self) -> bool:
        """Whether limits of both sides are shown because nothing tells the side."""
        return bool(self.limits and self.limits[0].side)


def rows_of(plan: Plan) -> tuple[Row, ...]:
    """The rows of a plan in its own order."""
    return tuple(_row(line) for line in plan.lines)


def groups_of(plan: Plan, rows: Iterable[Row]) -> list[tuple[str, list[Row]]]:
    """Rows in groups with their titles: the plan's views, or its instruments where it is in that order."""
    groups: dict[str, list[Row]] = {}
    for row in rows:
        title = row.view and f"view: {row.view}"
        if plan.order == "instrument":
            title = row.tool or "no instrument"
        groups.setdefault(title, []).append(row)
    return list(groups.items())


def readings_words(row: Row) -> str:
    """How many readings a row asks for: `4 on each of 5 pieces`, or nothing where it asks for none."""
    if not row.readings_per_piece:
        return ""
    return (
        str(row.readings_per_piece) if row.pieces == 1 else f"{row.readings_per_piece} on each of {row.pieces} pieces"
    )


def _row(line: PlanLine) -> Row:
    characteristic = line.characteristic
    limits = bounds_of(line.limits)
    if characteristic is not None and characteristic.either is not None:
        limits = bounds_of(characteristic.either.internal, "internal") + bounds_of(
            characteristic.either.external, "external"
        )
    return Row(
        number=visible(line.number),
        view=visible(line.view),
        zone=visible(line.zone),
        class_=visible(line.class_ or ""),
        requirement=visible(line.callout),
        characteristic=visible(line.description),
        standing=standing_words(line),
        limits=limits,
        unit=unit_shown(characteristic.unit) if characteristic else "",
        other_limits=bounds_of(line.other_limits),
        other_unit=line.other_unit or "" if line.other_limits else "",
        aim=_aim(line),
        instrument=_instrument(line),
        tool=_tool(line),
        resolution=_resolution(line.choice),
        method=visible(line.choice.method) if line.choice else "",
        by_gauge=_by_gauge(line.choice),
        readings_per_piece=line.readings_per_piece,
        pieces=line.pieces,
        sample=visible(line.sample) if line.readings_per_piece else "",
        why=_why(line),
        notes=_notes(line),
        widens=_widens(line),
    )


def _widens(line: PlanLine) -> bool:
    made = line.characteristic
    names = made.extra.get("modifiers") if made is not None else None
    return isinstance(names, list) and any(str(name).split()[0] in ("M", "L") for name in names)


def bounds_of(limits: tuple[Limits, ...], side: str = "") -> tuple[Bound, ...]:
    """Limits as text; `side` is told only where both sides are shown."""
    return tuple(_bound(each, side) for each in limits)


def _bound(limits: Limits, side: str) -> Bound:
    lower, upper = shown(limits)
    words = (_said(limits.lower, lower), _said(limits.upper, upper))
    return Bound(visible(limits.of), lower or "", upper or "", side, *words)


def _said(bound: Number | None, text: str | None) -> str:
    """What people are told instead of `text`: an angle that has no short decimal."""
    return angle_words(bound) if isinstance(bound, Fraction) and text and len(text) > _LONG else ""


def standing_words(line: PlanLine) -> str:
    """Why a line has no verdict, in words; empty where it has one."""
    characteristic = line.characteristic
    if characteristic is None or characteristic.status is Status.UNREAD:
        reason = visible(line.unread) or "no reason was recorded"
        return f"NOT READ: {reason}"
    if characteristic.either is not None:
        return "undecided until the side is known"
    words = status_words(characteristic)
    return f"{words} ({_why(line)})" if characteristic.status is Status.CONFLICT and characteristic.why else words


def _why(line: PlanLine) -> str:
    """Where the limits come from; for a conflict, both sides of it."""
    return "; ".join(visible(each) for each in line.characteristic.why) if line.characteristic else ""


def _aim(line: PlanLine) -> str:
    aim = line.aim
    return "" if aim is None else _said(aim, text := plain(aim)) or text


def _instrument(line: PlanLine) -> str:
    choice = line.choice
    if choice is None or not line.readings_per_piece:
        return ""  # nothing is decided, so nothing is measured
    if choice.instrument is None:
        return "none in the crib reaches it"
    name = visible(choice.instrument.name)
    if choice.by_side:  # nothing tells the side: one for each that may be meant
        name = "; ".join(f"{side}: {visible(tool.name)}" for side, tool in choice.by_side)
    return f"{name} (falls short)" if choice.falls_short else name


def _tool(line: PlanLine) -> str:
    """The name of the instrument alone, the first where one is named for each side."""
    if line.choice is None or not line.readings_per_piece or line.choice.instrument is None:
        return ""
    return visible(line.choice.instrument.name)


def _resolution(choice: Choice | None) -> str:
    if choice is None or choice.resolution_asked is None or _shows_no_value(choice):
        return ""
    return spoken(choice.resolution_asked, choice.unit)


def _shows_no_value(choice: Choice) -> bool:
    return choice.instrument is not None and choice.instrument.resolution is None


def _by_gauge(choice: Choice | None) -> bool:
    return choice is not None and choice.instrument is not None and choice.instrument.kind.attribute


def _notes(line: PlanLine) -> tuple[str, ...]:
    notes = [f"warning: {visible(each.text)}" for each in line.remarks if each.level == "warning"]
    choice = line.choice
    if choice is not None and line.readings_per_piece and (choice.falls_short or choice.instrument is None):
        notes.append(f"warning: {visible(choice.why)}")
    if choice is not None and choice.advice:
        notes.append(visible(choice.advice))
    notes += [visible(each.text) for each in line.remarks if each.level != "warning"]
    if line.remark:
        notes.append(f"remark on the sheet: {visible(line.remark)}")
    return tuple(notes)
