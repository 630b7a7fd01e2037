"""A judged plan as JSON Lines: first `{"judgement": {...}}`, then one `{"line": {...}}` a line of the plan.

Every number that measures something is a string in plain decimal notation. `schemas/judge.schema.json` describes each
object. Typed text is kept exactly; characters that could act in a terminal stand as JSON escapes.
"""

from __future__ import annotations

from collections.abc import Iterator

from sizewright.judge.model import (
    CheckReading,
    InstrumentUse,
    Judgement,
    LineJudgement,
    LotJudgement,
    Outcome,
    Reading,
    Statistics,
)
from sizewright.output.budgets import budget_object
from sizewright.output.jsonl import dumped, fault_json, limits_json, number_json
from sizewright.resolve.characteristic import Limits
from sizewright.text.numbers import plain

FORMAT = 1


def report_jsonl(judgement: Judgement) -> bytes:
    """The whole judgement, one object a line."""
    return "".join(f"{dumped(each)}\n" for each in report_objects(judgement)).encode("utf-8")


def report_objects(judgement: Judgement) -> Iterator[dict[str, object]]:
    """The objects of a judgement in order, the header first."""
    yield {"judgement": _header(judgement)}
    for line in judgement.lines:
        yield {"line": _line(line)}


def _header(given: Judgement) -> dict[str, object]:
    plan, rule = given.plan, given.rule
    return {
        "format": FORMAT,
        "standing": given.standing,
        "why": given.why,
        "rule": {
            "kind": rule.kind,
            "factor": number_json(rule.factor),
            "conformance": plain(rule.conformance),
            "binary": rule.binary,
            "words": list(given.rule_words),
        },
        "title": dict(plan.title),
        "unit": plan.unit,
        "lines": len(given.lines),
        "pieces": [{"piece": piece, "standing": standing} for piece, standing in given.pieces],
        "instruments": [_use(each) for each in given.instruments],
        "unreadable": [{"place": each.place, "text": each.text, "why": each.why} for each in given.unreadable],
        "faults": [fault_json(each) for each in plan.faults],
        "remarks": list(given.remarks),
        "cautions": list(plan.cautions),
        "lots": [_lot(each) for each in given.lots],
        "sources": list(given.sources),
    }


def _lot(lot: LotJudgement) -> dict[str, object]:
    return {
        "of": lot.of,
        "lines": list(lot.lines),
        "asked": lot.asked,
        "nonconforming": list(lot.nonconforming),
        "undecided": list(lot.undecided),
        "accept_on": lot.ac,
        "reject_on": lot.re,
        "standing": lot.standing,
        "why": lot.why,
    }


def _use(use: InstrumentUse) -> dict[str, object]:
    return {
        "name": use.name,
        "serial": use.serial,
        "due": use.due,
        "lines": list(use.lines),
        "checks": [_check(each) for each in use.checks],
        "overdue": use.overdue,
        "failed": use.failed,
        "unknown": use.unknown,
    }


def _check(check: CheckReading) -> dict[str, object]:
    return {
        "instrument": check.instrument,
        "serial": check.serial,
        "point": check.point,
        "lower": number_json(check.lower),
        "upper": number_json(check.upper),
        "unit": check.unit,
        "typed": check.typed,
        "passed": check.passed,
        "by": check.by,
        "when": check.when,
        "place": check.place,
    }


def _line(judged: LineJudgement) -> dict[str, object]:
    line, made = judged.line, judged.line.characteristic
    return {
        "number": line.number,
        "balloon": line.balloon,
        "view": line.view,
        "zone": line.zone,
        "class": line.class_,
        "callout": line.callout,
        "description": line.description,
        "status": made.status.value if made else None,
        "unit": made.unit if made else None,
        "limits": limits_json(line.limits),
        "standing": judged.standing,
        "why": judged.why,
        "asked": judged.asked,
        "missing": judged.missing,
        "outcomes": [_outcome(each) for each in judged.outcomes],
        "corrected": [_reading(each) for each in judged.corrected],
        "budget": None if judged.budget is None else budget_object(judged.budget),
        "statistics": [_statistics(each) for each in judged.statistics],
        "remark": line.remark,
        "remarks": [{"level": each.level, "text": each.text, "column": each.column} for each in line.remarks],
        "unread": line.unread or None,
    }


def _outcome(outcome: Outcome) -> dict[str, object]:
    return {
        "reading": _reading(outcome.reading),
        "limits": _pair(outcome.limits),
        "acceptance": _pair(outcome.acceptance),
        "verdict": outcome.verdict,
        "why": outcome.why,
        "conformance": number_json(outcome.conformance),
        "bonus": number_json(outcome.bonus),
        "tainted": outcome.tainted,
        "doubts": list(outcome.doubts),
    }


def _pair(limits: Limits) -> dict[str, str | None]:
    return {"lower": number_json(limits.lower), "upper": number_json(limits.upper)}


def _reading(reading: Reading) -> dict[str, object]:
    return {
        "piece": reading.piece,
        "instance": reading.instance,
        "of": reading.of,
        "typed": reading.typed,
        "value": number_json(reading.value),
        "answer": reading.answer,
        "unit": reading.unit,
        "instrument": reading.instrument,
        "by": reading.by,
        "when": reading.when,
        "note": reading.note,
        "place": reading.place,
    }


def _statistics(given: Statistics) -> dict[str, object]:
    capability, risk = given.capability, given.risk
    return {
        "of": given.of,
        "count": given.count,
        "least": plain(given.least),
        "greatest": plain(given.greatest),
        "mean": plain(given.mean),
        "spread": number_json(given.spread),
        "capability": capability
        and {
            "cp": number_json(capability.cp),
            "cpk": plain(capability.cpk),
            "cpk_lower": plain(capability.cpk_lower),
            "cpk_upper": plain(capability.cpk_upper),
            "meaning": capability.meaning,
        },
        "risk": risk
        and {
            "consumer": plain(risk.consumer),
            "producer": plain(risk.producer),
            "out_among_accepted": plain(risk.out_among_accepted),
            "process": risk.process,
        },
    }
