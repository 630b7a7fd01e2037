"""How many pieces each line of a plan is checked on, from the title block's lot, pieces and sampling rule.

- Without a rule: the pieces typed; where only the lot's size is told, every piece of it (full inspection); else one.
- With a rule: as it says for the line's class. A line whose class it does not name is checked on every piece.
- What contradicts itself, or cannot be reckoned, is a fault at the entry.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import ceil

from sizewright.plan.instead import GIVEN
from sizewright.plan.model import PlanLine
from sizewright.plan.sampling_model import ClassSample, Sampling
from sizewright.sheet.drafts import CLASSES
from sizewright.sheet.model import Entry, Fault, Sheet
from sizewright.sheet.near import quoted
from sizewright.sheet.sampling import OTHERS, ByAql, SamplingRule, Scheme, Share, Whole, lot_size, read_sampling
from sizewright.standards.errors import NotDefined
from sizewright.standards.sampling import IsoPlan, SinglePlan, curve_words, single_plan

_TOGETHER = (
    "The lines of one class are counted together: a piece with one or more of them out of limits is one nonconforming "
    "piece of that class."
)
_FOUND = "A nonconforming piece that is found is rejected in any case, also where its lot is accepted."
_RANDOM = "Draw the pieces at random from the whole lot and number them."
_FEWER = "What is checked on fewer pieces is checked on the first of them."
_ALL_OF = "all of how many? The number of pieces in the lot is not told"
_LOT_HINT = 'as in "lot: 500" or "lot: L-204 of 500"'


def sampled(lines: Sequence[PlanLine], sheet: Sheet) -> tuple[list[PlanLine], Sampling, list[Fault]]:
    """The lines with the pieces each is checked on, the sampling as a whole, and what is wrong with it."""
    faulty = {fault.line for fault in sheet.faults}
    title = {word: entry for word, entry in sheet.title.items() if entry.line not in faulty}
    sampler = _Sampler(title)
    sampler.notes += [
        f"{quoted(f'{entry.word}: {entry.value}')} was given with the command; it does not stand in the sheet."
        for entry in title.values()
        if entry.line == GIVEN
    ]
    if sampler.rule is None or sampler.rule.remark:
        return sampler.unruled(lines)
    return sampler.ruled(lines, sampler.rule)


class _CannotReckon(Exception):
    """A scheme that gives no number of pieces: message and hint."""


@dataclass(slots=True)
class _Sampler:
    title: dict[str, Entry]
    faults: list[Fault] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    @property
    def rule(self) -> SamplingRule | None:
        entry = self.title.get("sampling")
        return read_sampling(entry.value) if entry else None

    @property
    def lot(self) -> int | None:
        entry = self.title.get("lot")
        return lot_size(entry.value) if entry else None

    @property
    def pieces(self) -> int | None:
        entry = self.title.get("pieces")
        return int(entry.value) if entry and entry.value.isdecimal() else None

    def unruled(self, lines: Sequence[PlanLine]) -> tuple[list[PlanLine], Sampling, list[Fault]]:
        """Lines without a rule: all on the same pieces."""
        lot, pieces = self.lot, self.pieces
        count = pieces or lot or 1
        words, classes = "", []
        if lot is not None and pieces is None:
            words = f"full inspection: every piece of the lot of {lot}"
            classes.append(ClassSample("all lines", _asking(lines), lot, words))
            entry = quoted(self.title["lot"].value)
            self.notes.append(
                f"The lot entry {entry} is read as {_pieces(lot)}, and no sampling rule is typed: every piece is "
                'checked. A rule, as in "sampling: II 1.0", or a number of pieces changes that.'
            )
        elif lot is not None and pieces is not None and pieces > lot:
            self._fault("pieces", f"{pieces} pieces of a lot of {lot}", "one of the two has to go")
        elif lot is not None and pieces is not None and pieces < lot:
            self.notes.append(
                f"{pieces} of the {lot} pieces of the lot are checked, as typed. That is no sampling plan: it decides "
                "on those pieces, not on the lot."
            )
        if self.rule is not None:
            self.notes.append(
                f"Sampling is left to the remark {quoted(self.rule.remark)}; there is room for {_pieces(count)}."
            )
        made = [line._replace(pieces=count, sample=words) for line in lines]
        return made, Sampling(lot, tuple(classes), tuple(self.notes)), self.faults

    def ruled(self, lines: Sequence[PlanLine], rule: SamplingRule) -> tuple[list[PlanLine], Sampling, list[Fault]]:
        """Lines under a rule, each as its class has it."""
        samples: dict[str, ClassSample] = {}
        for name in (*CLASSES, OTHERS):
            own = [line for line in lines if _class(line, rule) == name]
            if own:
                samples[name] = self._sample(name, own, rule)
        made = [
            line._replace(pieces=sample.pieces, sample=sample.words)
            for line in lines
            for sample in [samples[_class(line, rule)]]
        ]
        asked = tuple(sample for sample in samples.values() if sample.lines)
        self._hold_against_pieces(asked)
        self._explain(asked, lines)
        return made, Sampling(self.lot, asked, tuple(dict.fromkeys(self.notes))), self.faults

    def _sample(self, name: str, lines: Sequence[PlanLine], rule: SamplingRule) -> ClassSample:
        scheme = rule.by_class.get(name, rule.others)
        of = name
        if name == OTHERS:
            of = "all lines" if not rule.by_class else "other lines"
        numbers = _asking(lines)
        try:
            count, words, plan = self._reckoned(scheme or Whole())
        except _CannotReckon as error:
            message, hint = error.args
            if numbers:
                self._fault("sampling", message if scheme else f"{_unnamed(lines)}: {message}", hint)
            return ClassSample(of, numbers, self.lot or self.pieces or 1, "the sampling rule is at fault")
        if scheme is None:
            words = f"{words}; the rule does not name {_unnamed(lines)}"
        return ClassSample(of, numbers, count, words, plan)

    def _reckoned(self, scheme: Scheme) -> tuple[int, str, SinglePlan | None]:
        """Pieces, where they come from, and the plan that decides on the lot."""
        if isinstance(scheme, Whole):
            size = self.lot or self.pieces
            if size is None:
                raise _CannotReckon(_ALL_OF, _LOT_HINT)
            return size, f"full inspection: every piece of {size}", None
        if isinstance(scheme, ByAql):
            return self._by_aql(scheme)
        if isinstance(scheme, Share):
            if self.lot is None:
                raise _CannotReckon(f"{scheme.words} of how many? {self._no_lot()}", _LOT_HINT)
            return _counted(ceil(scheme.share * self.lot), None, f"{scheme.words} of the lot of {self.lot}", self.lot)
        return _counted(scheme.pieces, scheme.ac, "", self.lot)

    def _by_aql(self, scheme: ByAql) -> tuple[int, str, SinglePlan]:
        if self.lot is None:
            raise _CannotReckon(f"an AQL gives a number of pieces by the size of the lot; {self._no_lot()}", _LOT_HINT)
        try:
            plan = single_plan(self.lot, scheme.level, scheme.aql, scheme.inspection)
        except NotDefined as error:
            raise _CannotReckon(error.message, '"all" would read') from None
        if not scheme.level_typed:
            self.notes.append("No inspection level is typed: level II is taken, the usual one of ISO 2859-1.")
        return plan.n, plan.words, plan

    def _no_lot(self) -> str:
        entry = self.title.get("lot")
        if entry is None or not entry.value:
            return "the lot entry is missing"
        return f"the lot entry {quoted(entry.value)} does not tell it"

    def _hold_against_pieces(self, samples: Sequence[ClassSample]) -> None:
        most = max((sample.pieces for sample in samples), default=self.pieces)
        if self.pieces is not None and most != self.pieces and not self.faults:
            hint = "one of the two has to go; the size of the lot stands in its own entry, lot"
            self._fault("pieces", f"{_pieces(self.pieces)}, but by the sampling rule it is {most}", hint)

    def _explain(self, samples: Sequence[ClassSample], lines: Sequence[PlanLine]) -> None:
        drawn = [s for s in samples if s.plan is not None and not (isinstance(s.plan, IsoPlan) and s.plan.whole)]
        if drawn:
            fewer = len({sample.pieces for sample in samples}) > 1
            self.notes += [f"{_RANDOM} {_FEWER}" if fewer else _RANDOM]
        if any(sample.plan for sample in samples):
            self.notes += [_TOGETHER, _FOUND]
        critical = {line.number for line in lines if line.class_ == "critical" and line.readings_per_piece}
        if critical & {number for sample in drawn for number in sample.lines}:
            self.notes.append("Critical lines are sampled too, as the rule says; a sample lets some pieces through.")
        for sample in drawn:
            assert sample.plan is not None
            self.notes.append(f"For {sample.of}, of large lots: {curve_words(sample.plan)}.")

    def _fault(self, word: str, message: str, hint: str) -> None:
        entry = self.title[word]
        fault = Fault(entry.line, entry.column, len(entry.value), message, entry.typed, hint)
        if fault not in self.faults:
            self.faults.append(fault)


def _counted(count: int, ac: int | None, words: str, lot: int | None) -> tuple[int, str, SinglePlan | None]:
    if lot is not None and count >= lot:
        more = "" if count == lot else f"{count} pieces typed, the lot has {lot}: "
        return lot, f"{more}full inspection: every piece of {lot}", None
    plan = SinglePlan(count, ac or 0, (ac or 0) + 1)
    typed = "" if ac is not None else "; no acceptance number typed, 0 taken"
    size = f"{words}: {_pieces(count)}" if words else f"{_pieces(count)} as typed"
    return count, f"{size}, Ac {plan.ac}, Re {plan.re}{typed}; no plan of a standard", plan


def _class(line: PlanLine, rule: SamplingRule) -> str:
    return line.class_ if line.class_ in rule.by_class else OTHERS


def _unnamed(lines: Sequence[PlanLine]) -> str:
    """The classes of lines that a rule does not name, in words."""
    names = dict.fromkeys(line.class_ or "lines without a class" for line in lines)
    return " and ".join(names)


def _asking(lines: Sequence[PlanLine]) -> tuple[str, ...]:
    return tuple(line.number for line in lines if line.readings_per_piece)


def _pieces(count: int) -> str:
    return "1 piece" if count == 1 else f"{count} pieces"
