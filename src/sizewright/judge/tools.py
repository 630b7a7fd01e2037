"""The instruments that readings name: found in the crib or not, checked, overdue, failed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime

from sizewright.instruments.model import Instrument
from sizewright.instruments.shelf import Crib
from sizewright.judge.model import CheckReading, InstrumentUse
from sizewright.judge.reading_rows import name_and_serial

# A failed point of a check, with the time from which a later passed one clears it (None: never).
Failure = tuple[CheckReading, datetime | None]


@dataclass(slots=True)
class Tool:
    """One instrument as named; `owned` are the entries of the crib that the name may mean, if there are any."""

    name: str
    serial: str
    owned: tuple[Instrument, ...]
    checks: list[CheckReading] = field(default_factory=list)
    lines: dict[str, None] = field(default_factory=dict)
    failures: list[Failure] = field(default_factory=list)
    overdue: str = ""
    said_failed: str = ""
    due: date | None = field(init=False)

    def __post_init__(self) -> None:
        """`due` is the earliest date due of the instruments that it may be."""
        self.due = min((each.due for each in self.owned if each.due is not None), default=None)

    @property
    def suspect(self) -> bool:
        """Whether a reading taken with it may be tainted or past its due date: nearly none is."""
        return bool(self.failures) or self.due is not None


class Tools:
    """All instruments of a judgement, by the names and serials that readings give."""

    def __init__(self, crib: Crib | None, checks: Iterable[CheckReading]) -> None:
        """Without a crib no instrument is called unknown."""
        self._crib = crib
        self._by_name: dict[str, list[Instrument]] = {}
        for instrument in crib.instruments if crib is not None else ():
            for key in _keys(instrument.name, instrument.serial):
                self._by_name.setdefault(key, []).append(instrument)
        self._named: dict[tuple[str, str], Tool] = {}
        self._tools: list[Tool] = []
        self._days: dict[str, datetime | None] = {}
        self._own: list[tuple[Tool, list[Failure]]] = []
        for check in checks:
            self._checked(check)
        own = [(tool, _failures(tool.checks)) for tool in self._tools]
        for tool in self._tools:
            _taint(tool, own)
        self._own = own

    def of(self, name: str, serial: str = "") -> Tool:
        """The instrument of this name and serial; `name` may hold both: `name #serial`."""
        tool = self._named.get((name, serial))
        if tool is None:
            tool = self._named[name, serial] = self._found(*_parted(name, serial))
        return tool

    def failed(self, tool: Tool, when: str) -> str:
        """What taints a reading taken with `tool`: the checks that it failed.

        A later check that passes at the same point clears the readings after it, where the times of both are known.
        """
        if not tool.failures:
            return ""
        at = self._moment(when)
        standing = [check for check, cleared in tool.failures if cleared is None or at is None or _earlier(at, cleared)]
        return "; ".join(_failed_words(check) for check in standing)

    def overdue(self, tool: Tool, when: str, on: date | None) -> str:
        """Says that the instrument was past its due date on the day of the reading (`on` where that is not told)."""
        due = tool.due
        if due is None:
            return ""
        at = self._moment(when)
        day = on if at is None else at.date()
        if day is None or day <= due:
            return ""
        said = f"due {due.isoformat()}, used on {day.isoformat()}"
        tool.overdue = tool.overdue or said
        return said

    def unknown(self, tool: Tool) -> bool:
        """Whether the crib has no such instrument."""
        return self._crib is not None and not tool.owned

    def uses(self) -> tuple[InstrumentUse, ...]:
        """Every instrument that was used or checked, in the order first met."""
        return tuple(
            InstrumentUse(
                name=tool.name,
                serial=tool.serial,
                due="" if tool.due is None else tool.due.isoformat(),
                lines=tuple(tool.lines),
                checks=tuple(tool.checks),
                overdue=tool.overdue,
                failed=tool.said_failed,
                unknown=self.unknown(tool),
            )
            for tool in self._tools
            if tool.lines or tool.checks
        )

    def _found(self, name: str, serial: str) -> Tool:
        """A known tool under another of its names, or a new one."""
        key = _folded(f"{name} {serial}")
        owned = tuple(self._by_name.get(key) or self._by_name.get(_folded(serial) or key) or ())
        for tool in self._tools:
            if (owned and tool.owned == owned) or (not owned and not tool.owned and _same(tool, name, serial)):
                tool.serial = tool.serial or serial
                return tool
        if len(owned) == 1:
            name, serial = owned[0].name, owned[0].serial or serial
        tool = Tool(name, serial, owned)
        _taint(tool, self._own)
        self._tools.append(tool)
        return tool

    def _checked(self, check: CheckReading) -> None:
        self.of(check.instrument, check.serial).checks.append(check)

    def _moment(self, when: str) -> datetime | None:
        if when not in self._days:
            self._days[when] = moment(when)
        return self._days[when]


def moment(when: str) -> datetime | None:
    """The time that a text in ISO form tells (a day alone is its beginning), without a zone; None where it does not."""
    try:
        return datetime.fromisoformat(when.strip()).replace(tzinfo=None)
    except ValueError:
        return None


def _taint(tool: Tool, own: Sequence[tuple[Tool, list[Failure]]]) -> None:
    """Give `tool` its failed checks, and those of others that it may be: a name can mean several instruments."""
    ids = set(map(id, tool.owned))
    tool.failures = [
        failure for other, failures in own for failure in failures if other is tool or ids & set(map(id, other.owned))
    ]
    tool.said_failed = "; ".join(_failed_words(check) for check, _ in tool.failures)


def _failures(checks: Sequence[CheckReading]) -> list[Failure]:
    found: list[Failure] = []
    for place, check in enumerate(checks):
        if check.passed is not False:
            continue
        later = [each for each in checks[place + 1 :] if each.point == check.point and each.passed is not None]
        cleared = moment(later[-1].when) if later and later[-1].passed else None
        found.append((check, cleared))
    return found


def _failed_words(check: CheckReading) -> str:
    shown = f": {check.typed}" if check.typed else ""
    return f"failed its check at {check.point}{shown}"


def _earlier(at: datetime, cleared: datetime) -> bool:
    return at < cleared


def _parted(name: str, serial: str) -> tuple[str, str]:
    """The name and the serial, the latter from the name where that holds it, as the log of readings writes both."""
    return (name, serial) if serial else name_and_serial(name)


def _same(tool: Tool, name: str, serial: str) -> bool:
    """Whether an instrument that is not in the crib goes by the same name, no two serials against each other."""
    if _folded(tool.name) != _folded(name):
        return False
    return not tool.serial or not serial or _folded(tool.serial) == _folded(serial)


def _keys(name: str, serial: str) -> set[str]:
    keys = {_folded(name)}
    if serial:
        keys |= {_folded(serial), _folded(f"{name} {serial}")}
    return keys


def _folded(text: str) -> str:
    """A name as it is compared: case, brackets, commas and runs of blanks do not matter."""
    for mark in "(),;":
        text = text.replace(mark, " ")
    return " ".join(text.casefold().split())
