"""A plan as JSON Lines: first `{"plan": {...}}`, then one `{"line": {...}}` a line of the plan.

Every number that measures something is a string in plain decimal notation. `schemas/plan.schema.json` describes each
object. Typed text is kept exactly; characters that could act in a terminal stand as JSON escapes.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from importlib import resources

from sizewright.instruments.model import Choice, Instrument
from sizewright.plan.model import Plan, PlanLine
from sizewright.plan.sampling_model import Sampling
from sizewright.resolve.answer import characteristic_json
from sizewright.resolve.characteristic import Limits
from sizewright.sheet.model import Fault
from sizewright.text.json_lines import dumped as dumped
from sizewright.text.numbers import Number, plain

FORMAT = 1


def plan_jsonl(plan: Plan) -> bytes:
    """The whole plan, one object a line."""
    return "".join(f"{dumped(each)}\n" for each in plan_objects(plan)).encode("utf-8")


def plan_objects(plan: Plan) -> Iterator[dict[str, object]]:
    """The objects of a plan in order, the header first."""
    yield {"plan": _header(plan)}
    for line in plan.lines:
        yield {"line": _line(line)}


def schema(name: str = "plan") -> dict[str, object]:
    """The JSON Schema of one object of the file of a plan, or of what else has one (`judge`)."""
    text = resources.files("sizewright.output").joinpath(f"schemas/{name}.schema.json").read_text("utf-8")
    loaded: dict[str, object] = json.loads(text)
    return loaded


def _header(plan: Plan) -> dict[str, object]:
    return {
        "format": FORMAT,
        "title": dict(plan.title),
        "unit": plan.unit,
        "pieces": plan.pieces,
        "lines": len(plan.lines),
        "instruments": [_instrument(instrument, numbers) for instrument, numbers in plan.instruments],
        "faults": [fault_json(fault) for fault in plan.faults],
        "cautions": list(plan.cautions),
        "sampling": _sampling(plan.sampling),
    }


def _sampling(sampling: Sampling) -> dict[str, object]:
    return {
        "lot": sampling.lot,
        "classes": [
            {
                "of": each.of,
                "lines": list(each.lines),
                "pieces": each.pieces,
                "accept_on": each.plan.ac if each.plan else None,
                "reject_on": each.plan.re if each.plan else None,
                "why": each.words,
            }
            for each in sampling.classes
        ],
        "notes": list(sampling.notes),
    }


def _instrument(instrument: Instrument, numbers: tuple[str, ...]) -> dict[str, object]:
    return {
        "name": instrument.name,
        "kind": instrument.kind.name,
        "unit": instrument.unit,
        "lower": plain(instrument.lower),
        "upper": plain(instrument.upper),
        "resolution": number_json(instrument.resolution),
        "owned": instrument.owned,
        "place": instrument.place,
        "serial": instrument.serial,
        "due": instrument.due.isoformat() if instrument.due else None,
        "lines": list(numbers),
    }


def fault_json(fault: Fault) -> dict[str, object]:
    """A fault of the sheet."""
    return {
        "line": fault.line,
        "column": fault.column,
        "length": fault.length,
        "message": fault.message,
        "text": fault.text,
        "hint": fault.hint,
    }


def _line(line: PlanLine) -> dict[str, object]:
    characteristic = line.characteristic
    return {
        "number": line.number,
        "balloon": line.balloon,
        "view": line.view,
        "zone": line.zone,
        "class": line.class_,
        "callout": line.callout,
        "description": line.description,
        "characteristic": None if characteristic is None else characteristic_json(characteristic),
        "unit": None if characteristic is None else characteristic.unit,
        "limits": limits_json(line.limits),
        "other": {"unit": line.other_unit, "limits": limits_json(line.other_limits)} if line.other_limits else None,
        "aim": number_json(line.aim),
        "instrument": None if line.choice is None else _choice(line.choice),
        "readings_per_piece": line.readings_per_piece,
        "pieces": line.pieces,
        "sample": line.sample,
        "remark": line.remark,
        "remarks": [{"level": each.level, "text": each.text, "column": each.column} for each in line.remarks],
        "unread": line.unread or None,
    }


def _choice(choice: Choice) -> dict[str, object]:
    resolution = choice.resolution_asked
    return {
        "name": choice.instrument.name if choice.instrument else None,
        "kind": choice.instrument.kind.name if choice.instrument else None,
        "falls_short": choice.falls_short,
        "why": choice.why,
        "resolution_asked": None if resolution is None else {"value": plain(resolution), "unit": choice.unit},
        "alternatives": [instrument.name for instrument in choice.alternatives],
        "method": choice.method,
        "advice": choice.advice,
    }


def limits_json(limits: tuple[Limits, ...]) -> list[dict[str, str | None]]:
    """Pairs of limits, a missing bound as null."""
    return [{"of": each.of, "lower": number_json(each.lower), "upper": number_json(each.upper)} for each in limits]


def number_json(value: Number | None) -> str | None:
    """A number in plain decimal notation."""
    return None if value is None else plain(value)
