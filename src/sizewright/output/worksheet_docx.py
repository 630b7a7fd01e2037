"""A worksheet as a DOCX document for the trainee: guided, step by step, or a project with the callouts alone.

It holds no answer: limits, instruments of lines and verdicts are left to the key.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest

from sizewright.instruments.model import Instrument
from sizewright.output import docx_styles as styles
from sizewright.output import worksheet_texts as texts
from sizewright.output.docx_tables import Boxes, Cell, Line
from sizewright.output.safe import visible
from sizewright.output.training_pages import Pages
from sizewright.resolve.describe import with_unit
from sizewright.training.answers import Exercise
from sizewright.training.hints import FADING, STEPS
from sizewright.training.worksheet import CAUTIONS, DECISION_RULE, Work, Worksheet

_MOST_ACROSS = 6
MOST_BOXES = 20  # readings that get a box each; more are typed into the XLSX form
_VERDICTS = ("accept", "reject", "undecided", "no verdict")
_REPORT = (
    "What was inspected: part, drawing, revision, number of pieces, temperature",
    "Which lines were rejected or undecided, and by how much they are out",
    "Which instruments were used, and what their checks before use showed",
    "Which readings are the least certain, and why",
    "Recommendation: release, rework, scrap, or ask, with the reason",
)
_STEP_SHARE, _HINT_SHARE, _ANSWER_SHARE = 24.0, 92.0, 70.0
_CORNERS = {
    "read": "in your own words",
    "check": "checked against what, and what it showed",
    "measure": "how it was held",
}


def worksheet_docx(worksheet: Worksheet, paper: str = "A4") -> bytes:
    """The worksheet as the bytes of a DOCX file on `paper`, A4 or Letter; the same worksheet gives the same bytes.

    Raises:
        InputError: the paper is neither.
    """
    guided = worksheet.level == "guided"
    pages = Pages(texts.title(worksheet), paper, landscape=not guided)
    _front(pages, worksheet)
    if guided:
        for work in worksheet.lines:
            _guided(pages, work, worksheet.both)
    else:
        _project(pages, worksheet)
    return pages.data()


def _front(pages: Pages, worksheet: Worksheet) -> None:
    pages.boxes(("name", "date", "points"), 3)
    pages.paragraph(styles.LABEL, "")
    across = 2 if worksheet.level == "guided" else 3
    add_pairs(pages, texts.drawing(worksheet), across, "Title block of the drawing")
    _outcomes(pages, worksheet.outcomes)
    pages.items("Time and parts", (worksheet.estimate.words, texts.parts_words(worksheet), texts.identity(worksheet)))
    _laid_out(pages, worksheet)
    pages.items("Cautions", CAUTIONS)
    pages.items("How to work", _how(worksheet))


def _outcomes(pages: Pages, outcomes: Sequence[str]) -> None:
    """The outcomes in two columns, each with a box to tick when it is reached."""
    pages.heading("When you have done this, you can")
    half = -(-len(outcomes) // 2)
    left, right = outcomes[:half], outcomes[half:]
    cells: list[Cell] = [[(styles.CHOICE, f"☐ {text}") for text in column] for column in (left, right)]
    pages.table((1, 1), (), [cells], "What is learnt, each with a box to tick")


def _laid_out(pages: Pages, worksheet: Worksheet) -> None:
    """The instruments to choose from, two in a row of the table."""
    pages.heading("Instruments laid out to choose from")
    tools = [_tool_cells(tool) for tool in worksheet.laid_out]
    half = -(-len(tools) // 2)
    blank: list[Cell] = [[]] * 3
    rows = [left + right for left, right in zip_longest(tools[:half], tools[half:], fillvalue=blank)]
    heads: list[Line] = [(styles.HEAD, head) for head in ("instrument", "range", "resolution")]
    pages.table((46, 26, 21) * 2, [*heads, *heads], rows, "Instruments laid out, two in a row")


def _tool_cells(tool: Instrument) -> list[Cell]:
    place = [(styles.CELL, visible(tool.place))] if tool.place else []
    name = visible(tool.name) + (f" ({tool.owned} of them)" if tool.owned > 1 else "")
    return [
        [(styles.CELL, name), *place],
        [(styles.CELL, texts.tool_range(tool))],
        [(styles.CELL, texts.tool_resolution(tool))],
    ]


def _how(worksheet: Worksheet) -> list[str]:
    words = ["The resolution asked for is a tenth of the tolerance.", DECISION_RULE]
    words.insert(0, "Write none where there is no limit. " + texts.unit_words(worksheet))
    if worksheet.level == "guided":
        words.insert(0, "Work each line through its eight steps. " + FADING)
        words.append("The practice reading of step 8 is made up: decide on it as on one of your own.")
    if worksheet.left_out:
        numbers = ", ".join(number for number, _ in worksheet.left_out)
        words.append(f"Lines of the drawing that are not part of this worksheet: {visible(numbers)}.")
    return [each.strip() for each in words]


def add_pairs(pages: Pages, entries: Sequence[tuple[str, str]], across: int, about: str) -> None:
    """Append words with their texts as a table of `across` pairs a row."""
    filled = [*entries, *[("", "")] * (-len(entries) % across)]
    rows: list[list[Cell]] = [
        [cell for word, text in filled[start : start + across] for cell in _pair(word, text)]
        for start in range(0, len(filled), across)
    ]
    pages.table((24, 69) * across, (), rows, about)


def _pair(word: str, text: str) -> tuple[Cell, Cell]:
    return [(styles.HEAD, word)], [(styles.CELL, text)]


# ---- guided ----------------------------------------------------------------------------------------------------------


def _guided(pages: Pages, work: Work, both: bool) -> None:
    exercise = work.exercise
    pages.heading(f"{exercise.line.number}   {texts.callout(exercise)}".replace("\n", "   "))
    pages.paragraph(styles.LEGEND, texts.about(exercise))
    width = pages.width * _ANSWER_SHARE / (_STEP_SHARE + _HINT_SHARE + _ANSWER_SHARE) - 4
    rows: list[list[Cell]] = []
    for step in STEPS:
        hint = work.hints[step.key]
        task = texts.readings_words(exercise) if step.key == "write" else ""
        said: list[Line] = [(styles.CELL, f"{step.task} {task[:1].upper()}{task[1:]}{'.' if task else ''}".strip())]
        said += [(styles.CHOICE, f"Hint: {hint}")] if hint else []
        if step.key == "decide" and work.practice is not None:
            reading = with_unit(work.practice.reading, work.practice.unit)
            said.append((styles.CELL, f"Practice: what would you decide on a reading of {reading}?"))
        rows.append([[(styles.STRONG, step.title)], said, _answer(step.key, work, both, width)])
    heads: list[Line] = [
        (styles.HEAD, f"line {exercise.line.number}"),
        (styles.HEAD, texts.callout(exercise).replace("\n", "   ")),
        (styles.HEAD, "your answer"),
    ]
    pages.table((_STEP_SHARE, _HINT_SHARE, _ANSWER_SHARE), heads, rows, f"Line {exercise.line.number}, step by step")


def _answer(key: str, work: Work, both: bool, width: float) -> Cell:
    """Room for the answer: boxes where there are several, else the cell itself with a label in its corner."""
    exercise = work.exercise
    if key == "limits":
        return [Boxes(texts.limit_labels(exercise, both), 2, width)]
    if key == "choose":
        return [Boxes(("instrument", "resolution"), 2, width), (styles.LABEL, "why this one"), (styles.CELL, "\n")]
    if key == "scale":
        return [(styles.CHOICE, "☐ read twice   ☐ both alike")]
    if key == "write":
        return _reading_boxes(exercise, width)
    if key == "decide":
        ticks: list[Line] = [(styles.CHOICE, _ticks(_VERDICTS)), (styles.LABEL, "why"), (styles.CELL, "\n")]
        if work.practice is not None:
            ticks.append((styles.CHOICE, f"practice: {_ticks(('accept', 'reject', 'no verdict'))}"))
        return ticks
    return [(styles.LABEL, _CORNERS[key]), (styles.CELL, "\n")]


def _ticks(words: Sequence[str]) -> str:
    return "   ".join(f"☐ {word}" for word in words)


def _reading_boxes(exercise: Exercise, width: float) -> Cell:
    labels = [f"{piece}/{place}" for piece, place in exercise.slots]
    if len(labels) > MOST_BOXES:
        words = f"{len(labels)} readings: type them into the XLSX form"
        return [(styles.CELL, words), Boxes(("smallest", "largest"), 2, width)]
    across = exercise.places if 1 < exercise.places <= _MOST_ACROSS else 4
    return [Boxes(labels, min(across, len(labels)), width)]


# ---- project ---------------------------------------------------------------------------------------------------------


def _project(pages: Pages, worksheet: Worksheet) -> None:
    pages.heading("Lines")
    pages.paragraph(
        styles.LEGEND,
        "Each reading box is marked piece/place: 2/3 is place 3 of piece 2. Tick one verdict a line and say why.",
    )
    shares = (12.0, 46.0, 44.0, 44.0, 56.0, 22.0, 49.0)
    scale = pages.width / sum(shares)
    heads = ("no.", "callout", "limits", "instrument, resolution", "readings", "verdict", "justification")
    rows = [_project_row(work.exercise, worksheet.both, scale) for work in worksheet.lines]
    pages.table(shares, [(styles.HEAD, head) for head in heads], rows, "Lines of the project, one row each")
    pages.heading("Report")
    for label in _REPORT:
        pages.boxes((f"{label}\n\n\n\n\n",), 1)
    pages.boxes(("signature", "date"), 2)


def _project_row(exercise: Exercise, both: bool, scale: float) -> list[Cell]:
    return [
        [(styles.STRONG, exercise.line.number)],
        [(styles.STRONG, texts.callout(exercise)), (styles.CELL, texts.about(exercise))],
        [Boxes(texts.limit_labels(exercise, both), 2, 44 * scale - 3)],
        [Boxes(("instrument", "resolution"), 1, 44 * scale - 3)],
        _reading_boxes(exercise, 56 * scale - 3),
        [(styles.CHOICE, f"☐ {word}") for word in _VERDICTS],
        [(styles.LABEL, "why")],
    ]
