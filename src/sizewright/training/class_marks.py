"""The marks of a class: who reached what, and where the class as a whole went wrong."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

from sizewright.judge.model import Reading
from sizewright.plan.model import Plan
from sizewright.text.errors import InputError
from sizewright.training.allowance import Allowance
from sizewright.training.answers import Exercise, exercises_of
from sizewright.training.form import Form, read_form
from sizewright.training.marking import QUESTIONS, Mark, Paper, Question, mark_form
from sizewright.training.picking import pick_lines

BLANK = "blank"


class Spot(NamedTuple):
    """One question of one line over the class: how many answered it right, and the commonest wrong answer with how
    many gave it."""

    line: str
    question: Question
    right: int
    asked: int
    wrong: str = ""
    wrong_count: int = 0

    @property
    def share(self) -> Fraction:
        """The share of right answers."""
        return Fraction(self.right, self.asked)


class ClassMarks(NamedTuple):
    """The papers of a class under one rule; `unreadable` are files that are no filled form, each with the reason;
    `remarks` are what is to be known of all of them."""

    plan: Plan
    papers: tuple[Paper, ...]
    rule: str
    unreadable: tuple[tuple[str, str], ...] = ()
    remarks: tuple[str, ...] = ()

    def by_question(self) -> tuple[Spot, ...]:
        """Each kind of question over all lines."""
        return tuple(
            spot for each in QUESTIONS if (spot := _spot("", each, [m for m in self._marks() if m.question == each]))
        )

    def by_line(self) -> tuple[Spot, ...]:
        """Each question of each line, in the order of the lines."""
        groups: dict[tuple[str, Question], list[Mark]] = {}
        for mark in self._marks():
            groups.setdefault((mark.line, mark.question), []).append(mark)
        return tuple(spot for (line, each), marks in groups.items() if (spot := _spot(line, each, marks)))

    def _marks(self) -> list[Mark]:
        return [mark for paper in self.papers for mark in paper.marks]


def mark_class(
    plan: Plan,
    paths: Sequence[Path],
    readings: Sequence[Reading],
    allowance: Allowance,
    *,
    unit: str | None = None,
    pick: str = "",
) -> ClassMarks:
    """The marks of the filled forms in `paths`; a file that is none is told, the others are marked all the same.

    Asked are the lines that the forms themselves name, unless `pick` says which. The last reading of a place is its
    reference.

    Raises:
        InputError: `pick` asks for no line of the plan.
    """
    forms: list[Form] = []
    unreadable: list[tuple[str, str]] = []
    for path in paths:
        try:
            forms.append(read_form(path))
        except InputError as error:
            unreadable.append((path.name, str(error)))
    exercises = exercises_of(plan, unit)
    if pick:
        chosen = {line.number for line in pick_lines([each.line for each in exercises], pick)}
        exercises = tuple(each for each in exercises if each.line.number in chosen)
    references = {(each.line, each.piece, each.instance, each.of): each for each in readings}
    papers = tuple(
        mark_form(form, plan, exercises if pick else _asked(form, forms, exercises), references, allowance)
        for form in forms
    )
    return ClassMarks(plan, papers, allowance.words, tuple(unreadable), tuple(_remarks(exercises, forms, references)))


def _asked(form: Form, forms: Sequence[Form], exercises: Sequence[Exercise]) -> tuple[Exercise, ...]:
    """The exercises that a form says it asks; where it does not say, those of any row of any form."""
    numbers = set(form.asked) or {row.line for each in forms for row in each.rows}
    return tuple(each for each in exercises if each.line.number in numbers)


def _remarks(
    exercises: Sequence[Exercise], forms: Sequence[Form], references: dict[tuple[str, int, int, str], Reading]
) -> list[str]:
    asked = {number for form in forms for number in (form.asked or tuple(row.line for row in form.rows))}
    lacking = [
        each.line.number
        for each in exercises
        if each.line.number in asked
        and each.decides
        and any((each.line.number, *slot, of) not in references for of in each.reads for slot in each.slots)
    ]
    if not lacking:
        return []
    return [f"Readings without a reference are not marked; lines that lack some: {', '.join(lacking)}."]


def _spot(line: str, question: Question, marks: Sequence[Mark]) -> Spot | None:
    if not marks:
        return None
    wrong = Counter(_said(mark) for mark in marks if not mark.right)
    said, count = min(wrong.items(), key=lambda pair: (-pair[1], pair[0])) if wrong else ("", 0)
    return Spot(line, question, sum(mark.right for mark in marks), len(marks), said, count)


def _said(mark: Mark) -> str:
    """A wrong answer as it is counted: case and blanks do not matter; over all lines, blanks count together."""
    return BLANK if mark.blank else " ".join(mark.given.casefold().split())
