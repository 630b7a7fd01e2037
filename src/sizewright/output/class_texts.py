"""What every form of a class table shows: rows of text."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import NamedTuple

from sizewright.output.front import heading
from sizewright.output.safe import one_line
from sizewright.training.class_marks import ClassMarks, Spot
from sizewright.training.marking import QUESTIONS, Mark, Paper

LEGEND = (
    "One point for each right answer. The verdict goes by the trainee's own readings and the true limits; limits count "
    "as numbers, however written, and in the other unit where they are rounded inward."
)


class Table(NamedTuple):
    """A table of text: its name, heads (with whether numbers stand below), and rows."""

    name: str
    heads: tuple[tuple[str, bool], ...]
    rows: tuple[tuple[str, ...], ...]


def title(marks: ClassMarks) -> str:
    """What the document is called."""
    return f"Class table: {heading(marks.plan)}"


def tables(marks: ClassMarks) -> tuple[Table, ...]:
    """All tables, in the order in which they are read."""
    return (class_table(marks), question_table(marks), line_table(marks), lost_table(marks))


def class_table(marks: ClassMarks) -> Table:
    """A row a trainee: points by kind of question, and in all."""
    heads = (("trainee", False), *((each, True) for each in QUESTIONS), ("points", True), ("share", True))
    return Table("class", heads, tuple(_trainee(paper) for paper in marks.papers))


def narrow_class_table(marks: ClassMarks) -> Table:
    """The same for a narrow place: of the questions only those that lost points."""
    heads = (("trainee", False), ("points", True), ("share", True), ("points lost", False))
    return Table("class", heads, tuple(_in_short(paper) for paper in marks.papers))


def _in_short(paper: Paper) -> tuple[str, ...]:
    lost = Counter(mark.question for mark in paper.marks if not mark.right)
    said = ", ".join(f"{question} {lost[question]}" for question in QUESTIONS if lost[question])
    name, *_, points, share = _trainee(paper)
    return name, points, share, said or "none"


def question_table(marks: ClassMarks) -> Table:
    """Where the class as a whole went wrong, by kind of question."""
    heads = (("question", False), ("right", True), ("share", True), ("commonest wrong answer", False))
    return Table("by question", heads, tuple((each.question, *_spot(each)) for each in marks.by_question()))


def line_table(marks: ClassMarks) -> Table:
    """Where the class as a whole went wrong, by line: questions that somebody got wrong, the worst first."""
    heads = (("line", False), ("question", False), ("right", True), ("share", True), ("commonest wrong answer", False))
    wrong = sorted((each for each in marks.by_line() if each.right < each.asked), key=lambda each: each.share)
    return Table("by line", heads, tuple((each.line, each.question, *_spot(each)) for each in wrong))


def lost_table(marks: ClassMarks) -> Table:
    """Every point lost, with the cell, what stands in it, and what is right."""
    heads = ("trainee", "line", "question", "cell", "answer", "right is", "why")
    rows = tuple(_lost(paper, mark) for paper in marks.papers for mark in paper.marks if not mark.right)
    return Table("points lost", tuple((head, False) for head in heads), rows)


def remarks(marks: ClassMarks) -> tuple[str, ...]:
    """The rule, files that were not marked, and what else is to be known."""
    files = [f"Not marked: {one_line(why)}" for _, why in marks.unreadable]
    own = [f"{one_line(paper.trainee)}: {one_line(each)}" for paper in marks.papers for each in paper.remarks]
    return (*files, marks.rule, LEGEND, *map(one_line, marks.remarks), *own)


def percent(share: Fraction) -> str:
    """A share in whole percent; all and nothing are said only where they are."""
    whole = round(share * 100)
    if whole == 100 and share < 1:
        whole = 99
    return f"{1 if whole == 0 and share else whole} %"


def _trainee(paper: Paper) -> tuple[str, ...]:
    parts = []
    for question in QUESTIONS:
        asked = [mark for mark in paper.marks if mark.question == question]
        parts.append(f"{sum(mark.right for mark in asked)}/{len(asked)}" if asked else "")
    share = percent(Fraction(paper.points, paper.possible)) if paper.possible else ""
    return (one_line(paper.trainee), *parts, f"{paper.points}/{paper.possible}", share)


def _spot(spot: Spot) -> tuple[str, str, str]:
    wrong = f"{one_line(spot.wrong)} ({spot.wrong_count})" if spot.wrong_count else ""
    return f"{spot.right}/{spot.asked}", percent(spot.share), wrong


def _lost(paper: Paper, mark: Mark) -> tuple[str, ...]:
    what = f"{mark.question} {mark.of}".strip()
    texts = (paper.trainee, mark.line, what, mark.address, mark.given, mark.expected, mark.why)
    return tuple(one_line(text) for text in texts)
