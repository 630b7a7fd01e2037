"""The key to a worksheet as a DOCX document: every answer with its reason."""

from __future__ import annotations

from sizewright.instruments.amounts import spoken
from sizewright.instruments.field_check import CheckPoint
from sizewright.output import docx_styles as styles
from sizewright.output import worksheet_texts as texts
from sizewright.output.docx_tables import Cell, Line
from sizewright.output.safe import visible
from sizewright.output.training_pages import Pages
from sizewright.output.worksheet_docx import add_pairs
from sizewright.plan.checks import checks_of
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.describe import angle_words, shown, status_words, unit_shown, with_unit
from sizewright.training.answers import Asked, Exercise
from sizewright.training.skills import DIFFICULTY_RULE, suggested
from sizewright.training.worksheet import DECISION_RULE, Work, Worksheet

_NO_LIMITS = "none"


def key_docx(worksheet: Worksheet, paper: str = "A4") -> bytes:
    """The key as the bytes of a DOCX file on `paper`, A4 or Letter.

    Raises:
        InputError: the paper is neither.
    """
    pages = Pages(texts.title(worksheet, key=True), paper, landscape=False)
    pages.paragraph(styles.WARNING, "For the trainer: every answer with its reason. Do not hand it out.")
    add_pairs(pages, texts.drawing(worksheet), 2, "Title block of the drawing")
    pages.items("The worksheet", _about(worksheet))
    pages.items("Have ready", [_tool_words(worksheet, number) for number in range(len(_needed(worksheet)))])
    checks = {id(check.instrument): check.points for check in checks_of(worksheet.plan)}
    for work in worksheet.lines:
        pages.heading(f"{work.exercise.line.number}   {texts.callout(work.exercise)}".replace("\n", "   "))
        pages.paragraph(styles.LEGEND, texts.about(work.exercise))
        heads: list[Line] = [(styles.HEAD, head) for head in ("step", "answer", "reason")]
        rows = _rows(work, worksheet.both, checks)
        pages.table((28, 66, 92), heads, rows, f"Answers to line {work.exercise.line.number}")
    pages.items("Lines left out", [f"{visible(number)}: {visible(why)}" for number, why in worksheet.left_out])
    return pages.data()


def _about(worksheet: Worksheet) -> list[str]:
    stated = [worksheet.estimate.words, texts.parts_words(worksheet), texts.identity(worksheet), DIFFICULTY_RULE]
    return [*stated, DECISION_RULE, *filter(None, [texts.unit_words(worksheet)])]


def _needed(worksheet: Worksheet) -> list[tuple[str, list[str]]]:
    """Names of the instruments suggested, with what stands where, and the lines each is for."""
    needed: dict[str, list[str]] = {}
    for work in worksheet.lines:
        for tool in suggested(work.exercise.line) if work.exercise.decides else ():
            parts = (tool.name, tool.place, tool.serial and f"serial {tool.serial}")
            needed.setdefault(visible(", ".join(filter(None, parts))), []).append(work.exercise.line.number)
    return list(needed.items())


def _tool_words(worksheet: Worksheet, number: int) -> str:
    name, lines = _needed(worksheet)[number]
    return f"{name}: for {', '.join(lines)}"


def _rows(work: Work, both: bool, checks: dict[int, tuple[CheckPoint, ...]]) -> list[list[Cell]]:
    exercise = work.exercise
    rows = [
        ("meaning", visible(exercise.line.description), f"{work.skill.family}; {work.skill.difficulty}{_marks(work)}")
    ]
    rows += [_limits_row(asked, exercise, both, first=not place) for place, asked in enumerate(exercise.asked)]
    rows.append(("instrument", instrument_answer(exercise), _instrument_reason(exercise)))
    if exercise.decides:
        rows.append(
            ("resolution", resolution_answer(exercise), "a tenth of the tolerance, or what the instrument reads")
        )
        rows.append(("check", *_check(exercise, checks)))
        rows.append(("measure", _method(exercise), f"usual mistakes: {_mistakes(exercise)}"))
        rows.append(("write down", texts.readings_words(exercise), visible(exercise.line.sample)))
    rows.append(("decide", verdict_answer(exercise), verdict_reason(exercise)))
    if work.practice is not None:
        reading = with_unit(work.practice.reading, work.practice.unit)
        rows.append(("practice", f"{reading}: {work.practice.verdict}", work.practice.why))
    return [
        [[(styles.HEAD, step)], [(styles.STRONG, answer)], [(styles.CELL, reason)]] for step, answer, reason in rows
    ]


def _marks(work: Work) -> str:
    return f": {', '.join(work.skill.marks)}" if work.skill.marks else ""


def _limits_row(asked: Asked, exercise: Exercise, both: bool, *, first: bool) -> tuple[str, str, str]:
    answer = pair_words(asked.limits, asked.unit)
    if both and asked.other is not None:
        answer += f"\n{pair_words(asked.other, asked.other_unit)}"
    name = f"limits, {asked.label}" if asked.label else "limits"
    return name, answer, limits_reason(exercise) if first else "as above"


def pair_words(limits: Limits, unit: str) -> str:
    """Both limits with their unit; `none` where one is missing."""
    if limits.lower is None and limits.upper is None:
        return _NO_LIMITS
    if unit == "deg":
        lower, upper = (None if each is None else angle_words(each) for each in limits[1:])
        return f"{lower or _NO_LIMITS} to {upper or _NO_LIMITS}"
    lower, upper = shown(limits)
    return f"{lower or _NO_LIMITS} to {upper or _NO_LIMITS} {unit_shown(unit)}".rstrip()


def limits_reason(exercise: Exercise) -> str:
    """Where the limits come from."""
    return "; ".join(map(visible, exercise.made.why)) or status_words(exercise.made)


def instrument_answer(exercise: Exercise) -> str:
    """The instrument suggested; `none` where nothing is measured."""
    if not exercise.decides:
        return _NO_LIMITS
    return " or ".join(visible(tool.name) for tool in suggested(exercise.line)) or "none in the crib reaches it"


def _instrument_reason(exercise: Exercise) -> str:
    if not exercise.decides:
        return "there is nothing to decide"
    choice = exercise.line.choice
    assert choice is not None
    named = set(map(id, suggested(exercise.line)))
    others = [visible(one.instrument.name) for one in exercise.suitable if id(one.instrument) not in named]
    also = f"; also suitable: {', '.join(others)}" if others else ""
    advice = f"; {visible(choice.advice)}" if choice.advice else ""
    return f"{visible(choice.why)}{advice}{also}"


def resolution_answer(exercise: Exercise) -> str:
    """The resolution that will do, and what the instrument suggested reads to."""
    tools = suggested(exercise.line)
    own = ", ".join(dict.fromkeys(texts.tool_resolution(tool) for tool in tools))
    if exercise.resolution is None:
        return "none: it shows no value" if tools else _NO_LIMITS
    return f"{spoken(exercise.resolution, exercise.made.unit)} or finer (the instrument: {own})"


def _check(exercise: Exercise, checks: dict[int, tuple[CheckPoint, ...]]) -> tuple[str, str]:
    tools = suggested(exercise.line)
    if not tools:
        return "–", ""
    points = checks.get(id(tools[0]), ())
    return "\n".join(visible(point.sentence()) for point in points) or visible(tools[0].kind.field_check), (
        f"{visible(tools[0].kind.field_check)}; limits from the permissible error of the instrument"
    )


def _method(exercise: Exercise) -> str:
    return visible(exercise.line.choice.method) if exercise.line.choice is not None else ""


def _mistakes(exercise: Exercise) -> str:
    return "; ".join(dict.fromkeys(visible(tool.kind.mistakes) for tool in suggested(exercise.line))) or "none known"


def verdict_answer(exercise: Exercise) -> str:
    """What is to be decided on readings."""
    if exercise.untold:
        return "undecided"
    if not exercise.decides:
        return "no verdict"
    if exercise.reads == ("",) and len(exercise.asked) > 1:
        return "accept where go goes and not-go does not; else reject"
    pairs = [f"{asked.label} {pair_words(asked.limits, asked.unit)}".strip() for asked in exercise.asked]
    return f"accept where every reading lies within {'; '.join(pairs)}; else reject"


def verdict_reason(exercise: Exercise) -> str:
    """Why it is decided so."""
    if exercise.untold:
        return "nothing tells which side is meant, so no reading can be held against limits"
    if not exercise.decides:
        return status_words(exercise.made)
    return "a limit is absolute; a reading equal to it complies"
