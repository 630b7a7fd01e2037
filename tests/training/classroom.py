"""Sheets, perfect papers and references for the tests of worksheets and marks."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path

from sizewright.instruments.crib import crib_of
from sizewright.judge.model import Reading
from sizewright.plan.build import build_plan
from sizewright.plan.model import Plan
from sizewright.sheet.read import read_sheet
from sizewright.text.numbers import Number, as_decimal, plain
from sizewright.training.allowance import USUAL_ALLOWANCE, Allowance
from sizewright.training.answers import Exercise, exercises_of
from sizewright.training.form import Form, FormCell, FormRow
from sizewright.training.marking import Paper, mark_form
from sizewright.training.skills import suggested

from ..support_command import ROOT

SAMPLES = sorted((ROOT / "samples").glob("*.sheet"))
Cells = dict[tuple[str, str], dict[str, str]]
UNITS = {"deg": "deg", "um": "µm", "uin": "µin", "mm": "mm", "inch": "in"}


@cache
def plan_of(path: Path) -> Plan:
    return build_plan(read_sheet(path), crib_of(None))


def plan_of_text(folder: Path, text: str) -> Plan:
    path = folder / "part.sheet"
    path.write_text(text, encoding="utf-8")
    return build_plan(read_sheet(path), crib_of(None))


def middle(exercise: Exercise, of: str) -> Number | None:
    """A value that complies, with few digits; None where only a gauge's answer can be given."""
    asked = exercise.asked[0] if not of else next(each for each in exercise.asked if each.of == of)
    lower, upper = asked.true.lower, asked.true.upper
    if (not of and len(exercise.asked) > 1) or (lower is None and upper is None):
        return None
    if lower is None or upper is None:
        return upper if upper is not None else lower
    return (Fraction(lower) + Fraction(upper)) / 2


References = dict[tuple[str, int, int, str], Reading]


def references_of(exercises: tuple[Exercise, ...]) -> References:
    found = {}
    for each in exercises:
        for of in each.reads:
            for piece, place in each.slots:
                value = middle(each, of)
                reading = Reading(
                    line=each.line.number, piece=piece, instance=place, of=of, typed="", value=value,
                    answer="accept" if value is None else None, unit=each.made.unit,
                )  # fmt: skip
                found[each.line.number, piece, place, of] = reading
    return found


def typed(value: Number) -> str:
    """A number as it is typed; a fraction of an angle without an end, in nine places."""
    text = plain(as_decimal(value))
    return text.rstrip("0").rstrip(".") if "." in text else text


def typed_limit(bound: Number | None) -> str:
    if bound is None:
        return "none"
    if isinstance(bound, Fraction):
        seconds = bound * 3600
        degrees, rest = divmod(seconds, 3600)
        minutes, rest = divmod(rest, 60)
        return f"{degrees}°{minutes}'" + (f'{plain(as_decimal(rest))}"' if rest else "")
    return plain(bound)


def perfect(exercises: tuple[Exercise, ...]) -> Cells:
    """The cells of a perfect paper, by line and what is bounded, then by head."""
    cells: Cells = {}
    for each in exercises:
        for place, asked in enumerate(each.asked):
            row = cells.setdefault((each.line.number, asked.label), {})
            row["lower limit"] = typed_limit(asked.limits.lower)
            row["upper limit"] = typed_limit(asked.limits.upper)
            of = asked.of if len(each.reads) > 1 else ""
            if each.decides and (of or not place):
                for piece, instance in each.slots:
                    value = middle(each, of)
                    row[f"reading {piece}/{instance}"] = "accept" if value is None else typed(value)
        first = cells[each.line.number, each.asked[0].label]
        tools = suggested(each.line)
        first |= {
            "unit": UNITS.get(each.asked[0].unit, ""),
            "instrument": tools[0].name if tools else "none",
            "resolution": "none" if each.resolution is None else _resolution(each),
            "verdict": "undecided" if each.untold else "accept" if each.decides else "no verdict",
            "why": "because the readings say so",
        }
    return cells


def _resolution(exercise: Exercise) -> str:
    assert exercise.resolution is not None
    unit = {"mm": "mm", "inch": "in", "um": "µm", "uin": "µin"}.get(exercise.made.unit, "")
    return f"{plain(as_decimal(Fraction(exercise.resolution)))} {unit}".strip()


def form_of(cells: Mapping[tuple[str, str], Mapping[str, str]], name: str = "A. Trainee") -> Form:
    """A form as it is read, from its cells."""
    rows = []
    heads: dict[str, None] = {}
    for number, ((line, of), row) in enumerate(cells.items(), start=6):
        given = {head: FormCell(text, f"X{number}") for head, text in row.items()}
        heads |= dict.fromkeys(row)
        readings = {
            (int(head.split()[1].split("/")[0]), int(head.split("/")[1])): cell
            for head, cell in given.items()
            if head.startswith("reading ")
        }
        rows.append(FormRow(line, of, str(number), given, readings))
    lines = tuple(dict.fromkeys(line for line, _ in cells))
    return Form(Path("form.xlsx"), name, lines, tuple(heads), tuple(rows))


def paper_of(
    plan: Plan,
    cells: Cells,
    allowance: Allowance = USUAL_ALLOWANCE,
    unit: str | None = None,
    only: Exercise | None = None,
) -> Paper:
    """The marks of a paper; with `only` those of one line, which takes less time."""
    exercises, references = _worked(id(plan), plan, unit)
    asked = exercises if only is None else (only,)
    return mark_form(form_of(cells), plan, asked, references, allowance)


_WORKED: dict[tuple[int, str | None], tuple[Plan, tuple[Exercise, ...], References]] = {}


def _worked(key: int, plan: Plan, unit: str | None) -> tuple[tuple[Exercise, ...], References]:
    """The exercises and references of a plan, made once: marks are made by the thousand."""
    if (key, unit) not in _WORKED:
        _WORKED[key, unit] = plan, exercises_of(plan, unit), references_of(exercises_of(plan))
    return _WORKED[key, unit][1:]


def far_off(exercise: Exercise, plan: Plan) -> str:
    """A reading that complies as the reference does but lies further off than is allowed; empty if there is none."""
    value = middle(exercise, "")
    if value is None or len(exercise.asked) != 1:
        return ""
    allowed = USUAL_ALLOWANCE._replace(wish=plan.wish).for_line(exercise, "", "")
    off = Fraction(value) + Fraction(allowed.amount) * Fraction(11, 10)
    limits = exercise.asked[0].true
    upper, lower = limits.upper, limits.lower
    if (upper is not None and off > Fraction(upper)) or (lower is not None and off < Fraction(lower)):
        return ""
    return plain(as_decimal(Fraction(round(off, 9))))
