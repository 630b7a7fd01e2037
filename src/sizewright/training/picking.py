"""Choosing lines by skill: `fits, micrometer, easy, 3, 5-7`.

Words of one sort widen the choice (fits, threads: either), words of different sorts narrow it (fits, easy: both).
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from sizewright.instruments.kinds import kinds
from sizewright.plan.model import PlanLine
from sizewright.sheet.near import did_you_mean, near, quoted
from sizewright.text.errors import InputError
from sizewright.training.skills import DIFFICULTIES, FAMILIES, SOURCES, skill_of

_NUMBERS = re.compile(r"(\d+(?:\.\d+)?)(?:\s*[-–]\s*(\d+(?:\.\d+)?))?", re.ASCII)


@dataclass(slots=True)
class _Wanted:
    families: set[str] = field(default_factory=set)
    sources: set[str] = field(default_factory=set)
    tools: set[str] = field(default_factory=set)
    difficulties: set[str] = field(default_factory=set)
    numbers: list[tuple[str, str]] = field(default_factory=list)


def pick_lines(lines: Sequence[PlanLine], text: str) -> tuple[PlanLine, ...]:
    """Those of `lines` that `text` asks for, in their order; all of them where it asks for nothing.

    Raises:
        InputError: a word is unknown (the near ones are named), or nothing is left.
    """
    wanted = _read(text, lines)
    found = tuple(line for line in lines if _fits(line, wanted))
    if not found:
        raise InputError(f"no line of the sheet is {quoted(text)}; `--pick list` tells what there is")
    return found


def pickings(lines: Sequence[PlanLine]) -> tuple[tuple[str, str, tuple[str, ...]], ...]:
    """What can be picked: sort, word, numbers of the lines, in the order of the tables."""
    skills = [(line.number, skill_of(line)) for line in lines]
    found = [("family", word, tuple(n for n, skill in skills if word in skill.words)) for word in FAMILIES]
    found += [("limits", word, tuple(n for n, skill in skills if word in skill.words)) for word in SOURCES]
    heads = {name for name, count in Counter(map(_last, kinds())).items() if count > 1}
    tools = [name for name in kinds() if any(name in skill.kinds for _, skill in skills)]
    groups = [head for head in dict.fromkeys(map(_last, tools)) if head in heads and head not in tools]
    for word in (*groups, *tools):
        numbers = tuple(n for n, skill in skills if any(_is_tool(word, kind) for kind in skill.kinds))
        found.append(("instrument", word, numbers))
    found += [("difficulty", word, tuple(n for n, s in skills if s.difficulty == word)) for word in DIFFICULTIES]
    return tuple(each for each in found if each[2])


def _last(name: str) -> str:
    return name.split()[-1]


def _is_tool(word: str, kind: str) -> bool:
    """Whether `word` names `kind`: whole words of its name, in any number (caliper, calipers)."""
    singular = {_singular(part) for part in word.split()}
    return singular <= {_singular(part) for part in kind.split()}


def _singular(word: str) -> str:
    return word.removesuffix("s") if len(word) > 3 else word


def _read(text: str, lines: Sequence[PlanLine]) -> _Wanted:
    wanted = _Wanted()
    for part in (" ".join(each.lower().split()) for each in text.split(",")):
        if not part:
            continue
        numbers = _NUMBERS.fullmatch(part)
        if numbers:
            wanted.numbers.append((numbers[1], numbers[2] or numbers[1]))
        elif part in DIFFICULTIES:
            wanted.difficulties.add(part)
        elif family := _family(part):
            (wanted.sources if family in SOURCES else wanted.families).add(family)
        elif any(_is_tool(part, kind) for kind in kinds()):
            wanted.tools.add(part)
        else:
            known = [*FAMILIES, *SOURCES, *kinds(), *dict.fromkeys(map(_last, kinds())), *DIFFICULTIES]
            hint = did_you_mean(near(part, known)) or "`--pick list` tells what there is"
            raise InputError(f"{quoted(part)} is no family, instrument, difficulty or line number; {hint}")
    for first, _ in wanted.numbers:
        if not any(_numbered(line, (first, first)) for line in lines):
            raise InputError(f"the sheet has no exercise of number {first}; `--pick list` tells what there is")
    return wanted


def _family(word: str) -> str:
    names = (*FAMILIES, *SOURCES)
    return next((name for name in names if word == name or _singular(word) == _singular(name)), "")


def _fits(line: PlanLine, wanted: _Wanted) -> bool:
    skill = skill_of(line)
    return (
        (not wanted.families or bool(wanted.families.intersection(skill.words)))
        and (not wanted.sources or bool(wanted.sources.intersection(skill.words)))
        and (not wanted.tools or any(_is_tool(word, kind) for word in wanted.tools for kind in skill.kinds))
        and (not wanted.difficulties or skill.difficulty in wanted.difficulties)
        and (not wanted.numbers or any(_numbered(line, pair) for pair in wanted.numbers))
    )


def _numbered(line: PlanLine, pair: tuple[str, str]) -> bool:
    """Whether a line's number lies between two; a balloon stands for all its lines (2 for 2.1 and 2.2)."""
    first, last = (tuple(map(int, each.split("."))) for each in pair)
    own = tuple(map(int, line.number.split(".")))
    return first <= own[: len(first)] and own[: len(last)] <= last
