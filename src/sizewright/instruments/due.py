"""Instruments past their due date: kept off the shelf, and named where they would have been chosen."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from sizewright.instruments.demand import Demand
from sizewright.instruments.model import Instrument
from sizewright.instruments.pick import Pick, pick
from sizewright.instruments.shelf import Held


def overdue(instrument: Instrument, today: date | None) -> bool:
    """Whether `instrument` was due before `today`; never where no day is given or none is known."""
    return today is not None and instrument.due is not None and instrument.due < today


def current(shelf: Sequence[Held], today: date | None) -> Sequence[Held]:
    """The instruments of `shelf` that are not overdue, in its order."""
    return [one for one in shelf if not overdue(one.instrument, today)] if today is not None else shelf


def due_note(found: Pick, shelf: Sequence[Held], ask: Demand, today: date | None) -> str:
    """What is to be said of due dates: that the one chosen is overdue, or that a simpler one was left out for it."""
    if today is None or not any(overdue(one.instrument, today) for one in shelf):
        return ""
    chosen = found.chosen
    if chosen is not None and overdue(chosen.instrument, today):
        return f"past its due date {chosen.instrument.due}: nothing else does, have it checked before it is used"
    first = pick(shelf, ask)
    if first.chosen is None or first.short or not overdue(first.chosen.instrument, today):
        return ""
    return f"{first.chosen.instrument.name} is past its due date {first.chosen.instrument.due} and was left out"
