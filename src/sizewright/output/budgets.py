"""An uncertainty budget as a table of its terms, as a sentence of what they come to, and as data."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from sizewright.instruments.budget_model import Budget, Term
from sizewright.output.grids import Field, Grid
from sizewright.output.jsonl import dumped, number_json
from sizewright.output.safe import visible
from sizewright.plan.model import PlanLine
from sizewright.resolve.describe import with_unit
from sizewright.text.numbers import plain

_LONGEST = 9  # more figures than any error is given with
_FIGURES = 3  # of a standard uncertainty and what comes of it
TERMS = (
    Field("term", 62), Field("stated", 28, True), Field("shape", 24), Field("standard uncertainty", 28, True),
    Field("sensitivity", 26, True), Field("contribution", 28, True), Field("degrees of freedom", 20, True),
    Field("source", 57),
)  # fmt: skip


def terms_grid(budget: Budget) -> Grid:
    """The terms of a budget."""
    return Grid("Uncertainty budget, one row a term", TERMS, [_term(each, budget.unit) for each in budget.terms])


def _term(term: Term, unit: str) -> tuple[str, ...]:
    return (
        visible(term.name),
        with_unit(_stated(term.stated), term.stated_unit),
        term.shape,
        with_unit(figures(term.standard), term.stated_unit),
        figures(term.sensitivity),
        with_unit(figures(term.contribution), unit),
        "∞" if term.dof is None else plain(term.dof),
        visible(term.source),
    )


def _stated(value: Decimal) -> str:
    """A half-width as it is given; one that has no end (2' in degrees) to a few figures."""
    return figures(value) if len(value.as_tuple().digits) > _LONGEST else plain(value)


def figures(value: Decimal, count: int = _FIGURES) -> str:
    """`value` to so many significant figures, in plain notation; what has fewer stays as it is."""
    if value.is_zero() or len(value.as_tuple().digits) <= count:
        return plain(value)
    return plain(value.quantize(Decimal(1).scaleb(value.adjusted() - count + 1)))


def budget_title(budget: Budget, numbers: Sequence[str]) -> str:
    """What a budget is for: `digital caliper, size, for lines 1, 3`."""
    lines = "line" if len(numbers) == 1 else "lines"
    return f"{budget_name(budget)}, for {lines} {', '.join(numbers)}"


def budget_name(budget: Budget) -> str:
    """Instrument and what is measured: `digital caliper, size`."""
    of = f", {visible(budget.of)}" if budget.of else ""
    return f"{visible(budget.instrument) or 'instrument not named'}{of}"


def budget_sum(budget: Budget) -> str:
    """What the terms come to, in one sentence."""
    dof = "beyond counting" if budget.dof is None else str(budget.dof)
    bias = f"; known error added in full {with_unit(figures(budget.bias), budget.unit)}" if budget.bias else ""
    return (
        f"Combined standard uncertainty {with_unit(figures(budget.combined), budget.unit)}; effective degrees of "
        f"freedom {dof}; coverage factor k = {plain(budget.factor)} for 95 %{bias}; "
        f"expanded uncertainty U = {with_unit(plain(budget.expanded), budget.unit)}."
    )


def budget_json(line: PlanLine, budget: Budget) -> str:
    """The budget of a line as one JSON object on a line of its own; `schemas/budget.schema.json` describes it."""
    return f"{dumped({'line': line.number, 'callout': line.callout, 'budget': budget_object(budget)})}\n"


def budget_object(budget: Budget) -> dict[str, object]:
    """A budget as plain values; every number is text in plain decimal notation."""
    return {
        "unit": budget.unit,
        "of": budget.of,
        "instrument": budget.instrument,
        "terms": [_term_object(each) for each in budget.terms],
        "combined": plain(budget.combined),
        "dof": budget.dof,
        "factor": plain(budget.factor),
        "bias": plain(budget.bias),
        "unrounded": plain(budget.unrounded),
        "expanded": plain(budget.expanded),
        "remarks": list(budget.remarks),
    }


def _term_object(term: Term) -> dict[str, object]:
    return {
        "name": term.name,
        "stated": plain(term.stated),
        "stated_unit": term.stated_unit,
        "shape": term.shape,
        "standard": plain(term.standard),
        "sensitivity": plain(term.sensitivity),
        "contribution": plain(term.contribution),
        "dof": number_json(term.dof),
        "source": term.source,
    }
