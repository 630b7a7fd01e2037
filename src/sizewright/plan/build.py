"""From a sheet and a crib to a plan."""

from __future__ import annotations

from typing import TypedDict

from sizewright.instruments.choose import choose
from sizewright.instruments.demand import USUAL, Wish
from sizewright.instruments.environment import environment_of
from sizewright.instruments.model import Instrument
from sizewright.instruments.shelf import Crib
from sizewright.notation.read import read_general
from sizewright.plan.model import Plan, PlanLine
from sizewright.plan.sampling import sampled
from sizewright.resolve.answer import answer
from sizewright.resolve.characteristic import Answer, Characteristic
from sizewright.resolve.context import Context
from sizewright.resolve.units import OTHER_UNIT, inward
from sizewright.sheet.faults import callout_fault, in_order
from sizewright.sheet.model import Fault, Line, Sheet

CAUTIONS = (
    "The drawing and the standards it calls govern; this plan is read from what was typed.",
    "Measure only what stands still: machine stopped and isolated, part released as local rules say.",
    "Deburr, clean and let part and instrument come to the same temperature; sizes hold at 20 °C.",
    "Edges cut. Handle parts and chips with care, and lift heavy parts with help.",
    "Safety-critical parts are released by qualified people under local rules, not by this plan.",
)


_CONTEXT_WORDS = ("unit", "manner", "general", "threads")


def context_of(sheet: Sheet) -> Context | None:
    """The context that a sheet's title block makes, or None where one of its entries for it is at fault."""
    faulty = {fault.line for fault in sheet.faults}
    entries = {word: sheet.title[word] for word in _CONTEXT_WORDS if word in sheet.title}
    if any(entry.line in faulty for entry in entries.values()):
        return None
    values = {word: entry.value for word, entry in entries.items()}
    inch = values.get("unit") == "inch"
    asme = values["manner"] == "asme" if "manner" in values else inch
    general = read_general(values["general"]) if values.get("general") else None
    edition = values.get("threads", "B1.1-2003").removeprefix("B1.1-")
    return Context("inch" if inch else "mm", "asme" if asme else "iso", general, edition)


def build_plan(sheet: Sheet, crib: Crib, wish: Wish = USUAL, *, both_units: bool = False) -> Plan:
    """The plan of `sheet`: every line is kept, a line whose callout does not read is marked unread.

    `wish` is what is asked of instruments; where they measure and how many pieces comes from the title block. With
    `both_units` limits are given in the other unit too, rounded inward. Where the title block's unit, manner or general
    tolerances are at fault, no line gets limits.
    """
    context = context_of(sheet)
    material = sheet.title["material"].value if "material" in sheet.title else ""
    wish = wish._replace(environment=environment_of(material, _temperature(sheet)))
    lines: list[PlanLine] = []
    faults: list[Fault] = list(sheet.faults)
    known = {fault.line for fault in sheet.faults}
    for line in sheet.lines:
        if context is None:
            lines.append(_unread(line, "the title block's unit, manner or general tolerances are at fault"))
            continue
        given = answer(line.callout, context)
        if given.error is not None:
            if line.callout and line.line not in known:  # a line at fault already says so itself
                faults.append(callout_fault(line, given.error))
            lines.append(_unread(line, given.error.message))
            continue
        lines += _resolved(line, given, unit=None if both_units else context.unit)
    lines, sampling, doubts = sampled(lines, sheet)
    lines = [_with_choice(line, crib, wish) for line in lines]
    faults += doubts
    return Plan(
        sheet=sheet,
        title={word: entry.value for word, entry in sheet.title.items()},
        unit=context.unit if context else "mm",
        pieces=_most_pieces(lines),
        lines=tuple(lines),
        instruments=_instruments(lines),
        faults=in_order(faults),
        cautions=CAUTIONS,
        sampling=sampling,
        crib=crib,
        wish=wish,
    )


def _with_choice(line: PlanLine, crib: Crib, wish: Wish) -> PlanLine:
    """The line with the instrument suggested for it, which may depend on how many pieces it is checked on."""
    if line.characteristic is None:
        return line
    return line._replace(choice=choose(line.characteristic, crib, wish._replace(pieces=line.pieces)))


def _most_pieces(lines: list[PlanLine]) -> int:
    """The most pieces that a line with readings is checked on; of a plan without readings, of any line."""
    asking = [line.pieces for line in lines if line.readings_per_piece]
    return max(asking or [line.pieces for line in lines] or [1])


def _temperature(sheet: Sheet) -> str:
    """The temperature of the title block, nothing where it is at fault."""
    entry = sheet.title.get("temperature")
    return "" if entry is None or any(fault.line == entry.line for fault in sheet.faults) else entry.value


def _resolved(line: Line, given: Answer, unit: str | None) -> list[PlanLine]:
    """The lines of one callout; limits that are not in `unit` (None: all) are given in the other unit too."""
    several = len(given.characteristics) > 1
    made_lines = []
    for place, made in enumerate(given.characteristics, start=1):
        foreign = made.unit in ("mm", "inch") and made.unit != unit
        other = OTHER_UNIT.get(made.unit) if unit is None or foreign else None
        made_lines.append(
            PlanLine(
                number=f"{line.balloon}.{place}" if several else str(line.balloon),
                characteristic=made,
                choice=None,
                readings_per_piece=_readings(made),
                other_limits=tuple(inward(pair, made.unit, other) for pair in made.limits) if other else (),
                other_unit=other,
                remarks=given.remarks if place == 1 else (),
                **_typed(line),
            )
        )
    return made_lines


def _readings(made: Characteristic) -> int:
    """One reading for each place; none where nothing is decided."""
    return (made.count or 1) if made.limits or made.either else 0


def _unread(line: Line, why: str) -> PlanLine:
    return PlanLine(
        number=str(line.balloon), characteristic=None, choice=None, readings_per_piece=0, unread=why, **_typed(line)
    )


def _typed(line: Line) -> _Typed:
    return {
        "balloon": line.balloon,
        "callout": line.callout,
        "view": line.view,
        "zone": line.zone,
        "class_": line.class_,
        "remark": line.remark,
    }


class _Typed(TypedDict):
    """What a plan line takes from the sheet as it stands."""

    balloon: int
    callout: str
    view: str
    zone: str
    class_: str | None
    remark: str


def _instruments(lines: list[PlanLine]) -> tuple[tuple[Instrument, tuple[str, ...]], ...]:
    """The instruments that the plan needs, each with the lines it is for, in the order first needed."""
    needed: dict[int, tuple[Instrument, list[str]]] = {}
    for line in lines:
        if line.choice is None or not line.readings_per_piece:
            continue
        chosen = [line.choice.instrument] if line.choice.instrument else []
        for instrument in [tool for _, tool in line.choice.by_side] or chosen:
            needed.setdefault(id(instrument), (instrument, []))[1].append(line.number)
    return tuple((instrument, tuple(numbers)) for instrument, numbers in needed.values())
