"""A worksheet derived from a plan: its lines with hints, what is learnt, what it takes, and what must lie ready.

It is the same for the same sheet, crib, options and seed. Nothing in it that a trainee sees tells an answer; answers
are in `answers`.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from math import ceil
from typing import Literal, NamedTuple

from sizewright.instruments.features import needs
from sizewright.instruments.model import Instrument
from sizewright.plan.model import Plan
from sizewright.text.errors import InputError, with_article
from sizewright.training.answers import Exercise, exercises_of, left_out
from sizewright.training.hints import Stage, hints_for, stage_of
from sizewright.training.outcomes import outcomes_of
from sizewright.training.picking import pick_lines
from sizewright.training.practice import Practice, practice_for
from sizewright.training.skills import DIFFICULTIES, Difficulty, Skill, skill_of, suggested
from sizewright.training.times import Times, usual_times

Level = Literal["guided", "project"]
LEVELS: tuple[Level, ...] = ("guided", "project")
CAUTIONS = (
    "Measure only what stands still: machine stopped and isolated, part released as local rules say.",
    "Edges cut. Deburr and clean the part, and lift heavy parts with help.",
    "Ask before you use an instrument that is new to you.",
    "Let part and instrument come to the same temperature; sizes hold at 20 °C.",
    "The drawing and the standards it calls govern. A part measured in training is not released by it.",
)
DECISION_RULE = (
    "Decide by simple acceptance: a reading within the limits, or equal to one, is accepted. Where nothing can be "
    "decided before something is known, write undecided; where a line has no limits, write no verdict."
)
# Minutes of thinking and writing for a line, by its difficulty: common practice, no source.
_PAPER: dict[Level, dict[Difficulty, int]] = {
    "guided": {"easy": 5, "medium": 7, "hard": 10},
    "project": {"easy": 3, "medium": 5, "hard": 7},
}
_REPORT = 15
_LEAST_DECOYS = 4


class Work(NamedTuple):
    """One line of a worksheet: what is right, what it exercises, its hints, and a reading to decide on paper."""

    exercise: Exercise
    skill: Skill
    stage: Stage
    hints: Mapping[str, str]
    practice: Practice | None


class Estimate(NamedTuple):
    """The minutes that a worksheet takes, and how they come about."""

    minutes: int
    words: str


class Worksheet(NamedTuple):
    """A whole worksheet.

    `unit` is the one that limits are asked in (mm, inch, both; None: that of the drawing). `laid_out` are the
    instruments to choose from: those needed and others beside them. `left_out` are lines that are no exercise.
    """

    plan: Plan
    level: Level
    unit: str | None
    seed: int
    picked: str
    lines: tuple[Work, ...]
    outcomes: tuple[str, ...]
    estimate: Estimate
    laid_out: tuple[Instrument, ...]
    left_out: tuple[tuple[str, str], ...]
    pieces: int

    @property
    def both(self) -> bool:
        """Whether limits are asked in both units."""
        return self.unit == "both"


def worksheet_of(
    plan: Plan,
    level: Level,
    *,
    unit: str | None = None,
    seed: int = 0,
    pick: str = "",
    times: Mapping[str, Times] | None = None,
) -> Worksheet:
    """The worksheet of `plan`; its order of lines is that of the plan.

    Raises:
        InputError: the plan has no line to work, or `pick` asks for none of them.
    """
    exercises = exercises_of(plan, None if unit == "both" else unit)
    if not exercises:
        raise InputError(f"{plan.sheet.source}: no line of it is an exercise: nothing in it is measured or decided")
    chosen = pick_lines([each.line for each in exercises], pick)
    numbers = {id(line) for line in chosen}
    exercises = tuple(each for each in exercises if id(each.line) in numbers)
    lines = tuple(_work(each, place, len(exercises), level, seed) for place, each in enumerate(exercises))
    return Worksheet(
        plan=plan,
        level=level,
        unit=unit,
        seed=seed,
        picked=pick,
        lines=lines,
        outcomes=outcomes_of([work.skill for work in lines]),
        estimate=_estimate(lines, level, times or usual_times()),
        laid_out=_laid_out(plan, exercises, seed),
        left_out=left_out(plan),
        pieces=max(each.pieces for each in exercises),
    )


def _work(exercise: Exercise, place: int, count: int, level: Level, seed: int) -> Work:
    stage: Stage = stage_of(place, count) if level == "guided" else "none"
    line = exercise.line
    practice = practice_for(exercise, random.Random(f"{seed}:{line.number}:{line.callout}"))
    return Work(exercise, skill_of(line), stage, hints_for(line, stage), practice if level == "guided" else None)


def _estimate(lines: Sequence[Work], level: Level, times: Mapping[str, Times]) -> Estimate:
    """Time with the instruments by the table of times, and time to think and write by difficulty."""
    tools: dict[str, list[int]] = {}
    for work in lines:
        exercise = work.exercise
        for name in work.skill.kinds[:1] if exercise.decides else ():
            task = tools.setdefault(name, [0, 0])
            task[0] += 1
            task[1] += len(exercise.slots) * len(exercise.reads)
    measuring = sum(times[name].minutes(*task) for name, task in tools.items() if name in times)
    counts = {word: sum(work.skill.difficulty == word for work in lines) for word in DIFFICULTIES}
    paper = sum(_PAPER[level][word] * count for word, count in counts.items())
    report = _REPORT if level == "project" else 0
    readings = sum(task[1] for task in tools.values())
    total = 5 * ceil((measuring + paper + report) / 5)
    shares = ", ".join(f"{_PAPER[level][word]} for {with_article(word)} one" for word in DIFFICULTIES)
    setups = _count(len(tools), "set-up")
    words = (
        f"About {total} minutes: {measuring} with the instruments ({setups} with the check before use, "
        f"{_count(readings, 'reading')}), {paper} to think and write ({_count(len(lines), 'line')}: {shares})"
        + (f", {report} for the report" if report else "")
        + ", rounded up. Estimates, common practice."
    )
    return Estimate(total, words)


def _count(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def _laid_out(plan: Plan, exercises: Sequence[Exercise], seed: int) -> tuple[Instrument, ...]:
    """The instruments suggested, and by the seed others that reach the same features, if not as well."""
    needed = {id(tool): tool for each in exercises if each.decides for tool in suggested(each.line)}
    others: dict[int, Instrument] = {}
    for each in exercises:
        for feature in needs(each.made).features:
            for one in plan.crib.by_feature.get(feature, ()):
                if one.instrument.unit == each.made.unit and id(one.instrument) not in needed:
                    others[id(one.instrument)] = one.instrument
    spare = sorted(others.values(), key=_in_order)
    count = min(len(spare), max(_LEAST_DECOYS, len(needed) // 2))
    decoys = random.Random(f"{seed}:laid out").sample(spare, count)
    return tuple(sorted([*needed.values(), *decoys], key=_in_order))


def _in_order(tool: Instrument) -> tuple[int, str, Fraction, str]:
    return tool.kind.rank, tool.unit, Fraction(tool.lower or Decimal(0)), tool.name
