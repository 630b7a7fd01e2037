"""A session of `take`: the places in their order, what is typed at each, and what comes of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime
from fractions import Fraction

from sizewright.cli import take_words as words
from sizewright.cli.take_check import check
from sizewright.cli.take_talk import Talk
from sizewright.instruments.field_check import CheckPoint
from sizewright.instruments.model import Instrument
from sizewright.judge.asked import by_gauge
from sizewright.judge.bonus import bonuses_of
from sizewright.judge.doubts import doubts
from sizewright.judge.entries import Entry, read_entry
from sizewright.judge.places import Key, Place
from sizewright.judge.reading_files import read_readings
from sizewright.judge.reading_log import ReadingLog
from sizewright.judge.reading_rows import CHECK, UNDONE, name_and_serial
from sizewright.judge.values import LENGTHS, ReadingError, read_value
from sizewright.output.rows import Row, rows_of
from sizewright.plan.checks import check_of
from sizewright.plan.model import Plan, PlanLine
from sizewright.sheet.near import did_you_mean, near
from sizewright.text.errors import OutputError
from sizewright.text.numbers import Number, plain

_YES = frozenset({"y", "yes", "keep"})
_NO = frozenset({"n", "no"})
_STOP = frozenset({"q", "quit", "exit"})
_ROW = dict[str, str]


class Session:
    """The state of one session. `run` goes through the places until something ends it."""

    def __init__(
        self, plan: Plan, places: Sequence[Place], log: ReadingLog, talk: Talk, *, by: str, deviation: bool
    ) -> None:
        """`places` are in the order in which they are asked for; `log` is open; `by` is who measures."""
        self.talk = talk
        self._plan, self._crib, self._log, self._by, self._deviation = plan, plan.crib, log, by, deviation
        self._rows: dict[str, Row] = {row.number: row for row in rows_of(plan)}
        self._bonuses = bonuses_of(plan)
        self._places = places
        self._at = 0
        self._shown: tuple[str, ...] = ()  # the line, limits and instrument that the heading above the prompt tells
        self._instrument = ""
        self._held: dict[Key, list[str]] = {}
        self._stored: list[_ROW] = []  # every row that counts, oldest first: what undo takes back
        self._now = 0

    def begin(self, there: bool) -> None:
        """Say what this is, what is in the file already, and go to the first place without a reading."""
        title = self._plan.title
        name = ", ".join(filter(None, (title.get("part", ""), title.get("drawing", ""))))
        head = f"{name or self._plan.sheet.source.name}: {_count(len(self._places), 'reading')} into {self._log.path}"
        self.talk.say(head, "bold")
        self.talk.say(words.DEVIATION if self._deviation else words.INTRODUCTION)
        self.talk.say(words.SAFETY)
        if not self._by:
            self.talk.say("Who measures is not recorded (--by NAME does).")
        if there:
            self._take_up()
        self._at = self._next_missing(0)

    def run(self) -> int:
        """Ask until the user stops (0), or nothing can be stored through a pipe (1)."""
        try:
            while self._one():
                pass
        except OutputError:
            return 1
        return 0

    def end(self) -> None:
        """Say what is there."""
        missing = sum(not self._held.get(place.key) for place in self._places)
        there = f"{len(self._places) - missing} of {_count(len(self._places), 'reading')} in {self._log.path}"
        rest = "none is missing" if not missing else f"{missing} missing; the same command goes on there"
        self.talk.say(f"{there}, {self._now} taken now; {rest}.")

    def _take_up(self) -> None:
        found = read_readings(self._log.path, self._plan)
        for each in found.readings:
            key = (each.line, each.piece, each.instance, each.of)
            self._held.setdefault(key, []).append(each.typed)
            self._stored.append(_reading_row(key, each.typed, each.instrument))
        for one in found.checks:
            label = f"{one.instrument} #{one.serial}" if one.serial else one.instrument
            self._stored.append({"balloon": CHECK, "limits of": one.point, "instrument": label, "value": one.typed})
        if found.readings:
            last = found.readings[-1]
            when = ", ".join(filter(None, (last.when, last.by)))
            there = sum(bool(self._held.get(place.key)) for place in self._places)
            key = (last.line, last.piece, last.instance, last.of)
            said = f"{there} of them are there; the last one: {words.where(key)}, {last.typed}"
            self.talk.say(f"{said} ({when})." if when else f"{said}.")
        for bad in found.unreadable:
            self.talk.say(f"{bad.place} cannot be used: {bad.why} ({bad.text})", indent="  ", hang="    ")

    def _next_missing(self, begin: int) -> int:
        """The next place without a reading from `begin` on; past the end where there is none."""
        indexes = range(begin, len(self._places))
        return next((at for at in indexes if not self._held.get(self._places[at].key)), len(self._places))

    def _one(self) -> bool:
        """One question and what comes of its answer; False where the user stops."""
        if self._at >= len(self._places):
            return self._at_the_end()
        place = self._places[self._at]
        self._show(place)
        typed = " ".join(self.talk.ask(self._prompt(place)).split())
        if typed.lower() in _STOP:
            return False
        if typed and not self._command(typed, place):
            self._take(typed, place)
        return True

    def _at_the_end(self) -> bool:
        self._shown = ()
        missing = [each for each in self._places if not self._held.get(each.key)]
        if missing:
            first = ", ".join(words.where(each.key) for each in missing[:3])
            more = " ..." if len(missing) > 3 else ""
            self.talk.say(f"The end of the list; {_count(len(missing), 'reading')} missing: {first}{more}")
            asked = "Enter goes to the first of them, q stops"
        else:
            self.talk.say("All readings are there.", "bold")
            asked = "Enter stops; u undoes the last, g 7 goes to balloon 7"
        typed = " ".join(self.talk.ask(asked).split())
        if typed.lower() in _STOP or (not typed and not missing):
            return False
        if not typed:
            self._at = self._next_missing(0)
        elif not self._command(typed, None):
            self.talk.say(f"{typed} is not taken: no place is asked for now", indent="  ")
        return True

    def _prompt(self, place: Place) -> str:
        return words.prompt(place, self._rows[place.line.number], place.line.pieces)

    def _show(self, place: Place) -> None:
        """The heading of a line, once; and what stands at the place already."""
        row = self._rows[place.line.number]
        label = self._label(place)
        again = self._shown[:1] == (row.number,)
        if not again:
            self.talk.say("")
            self.talk.say(words.title(row), "bold", hang="    ")
        if self._shown != (row.number, place.of, label):
            self.talk.say(words.details(place, row, again), indent="  ", hang="    ")
            if not again or self._shown[2:] != (label,):
                self.talk.say(self._with(row, label), indent="  ", hang="    ")
            if place.line.remark and not again:
                self.talk.say(f"remark on the sheet: {place.line.remark}", indent="  ", hang="    ")
            self._shown = (row.number, place.of, label)
        if there := self._held.get(place.key):
            self.talk.say(f"here stands {there[-1]}; a new value replaces it, n goes on", indent="  ")

    def _with(self, row: Row, label: str) -> str:
        if not label:
            return "with: nothing in the crib reaches it; i NAME tells what is used"
        own = label == self._instrument
        resolution = f", read to {row.resolution}" if row.resolution and not own else ""
        checked = any(each["balloon"] == CHECK and each["instrument"] == label for each in self._stored)
        return f"with: {label}{resolution}{'' if checked else '; not checked yet, c does it'}"

    def _label(self, place: Place) -> str:
        """The instrument in use, with its serial number: the one chosen by `i`, unless it cannot be meant here."""
        if self._instrument and self._fits(place):
            return self._instrument
        tool = place.line.choice.instrument if place.line.choice else None
        return _labelled(tool) if tool else ""

    def _fits(self, place: Place) -> bool:
        """Whether the instrument chosen by `i` can answer here: lengths or angles, a number or the word of a gauge."""
        tool, made = self._tool(self._instrument), place.line.characteristic
        if tool is None or made is None:
            return True
        alike = made.unit == tool.unit or (made.unit in LENGTHS and tool.unit in LENGTHS)
        return alike and (not by_gauge(place.line) or tool.kind.attribute)

    def _tool(self, label: str) -> Instrument | None:
        name, serial = name_and_serial(label)
        return next((each for each in self._crib.instruments if (each.name, each.serial) == (name, serial)), None)

    def _command(self, typed: str, place: Place | None) -> bool:
        """Obey `typed` where it is a command."""
        word, _, rest = typed.partition(" ")
        commands: dict[str, Callable[[str, Place | None], None]] = {
            "?": self._help, "h": self._help, "help": self._help, "u": self._undo, "undo": self._undo,
            "b": self._back, "back": self._back, "n": self._on, "next": self._on, "g": self._go, "i": self._use,
            "c": self._check, "check": self._check,
        }  # fmt: skip
        command = commands.get(word.lower())
        if command is None or (rest and command not in (self._go, self._use)):
            return False
        command(rest, place)
        return True

    def _help(self, _: str, __: Place | None) -> None:
        for typed, meaning in words.HELP:
            self.talk.say(f"{typed:<19} {meaning}", indent="  ", hang=" " * 22)

    def _back(self, _: str, __: Place | None) -> None:
        if not self._at:
            self.talk.say("this is the first place", indent="  ")
        self._at = max(0, self._at - 1)

    def _on(self, _: str, __: Place | None) -> None:
        self._at = min(len(self._places), self._at + 1)

    def _go(self, rest: str, _: Place | None) -> None:
        number, *pieces = rest.strip().lstrip("#").split() or [""]
        found = [
            at for at, each in enumerate(self._places)
            if (each.line.number == number or str(each.line.balloon) == number) and pieces in ([], [str(each.piece)])
        ]  # fmt: skip
        if not found:
            known = dict.fromkeys(each.line.number for each in self._places)
            hint = did_you_mean(near(number, known)) or f"there are {', '.join(known)}"
            self.talk.say(f"no place {rest or 'without a number'} is asked for; {hint}", indent="  ", hang="    ")
            return
        self._at = next((at for at in found if not self._held.get(self._places[at].key)), found[0])
        self._shown = ()

    def _use(self, rest: str, _: Place | None) -> None:
        if not rest:
            self._instrument = ""
            self.talk.say("the instruments that the plan suggests, again", indent="  ")
            return
        name, serial = name_and_serial(rest)
        tools = self._matching(name, serial)
        if len(tools) > 1:
            listed = "; ".join(_labelled(tool) for tool in tools[:6])
            self.talk.say(f"several are meant by {rest}: {listed}", indent="  ", hang="    ")
            return
        self._instrument = _labelled(tools[0]) if tools else rest
        if not tools:
            hint = did_you_mean(near(name, [tool.name for tool in self._crib.instruments]))
            said = f"{rest} is not in the crib; it is recorded as typed"
            self.talk.say(f"{said} ({hint})" if hint else said, indent="  ", hang="    ")

    def _matching(self, name: str, serial: str = "") -> list[Instrument]:
        """The instruments of the crib that `name` means: by its whole, or else by a part of it."""
        folded = name.casefold()
        tools = [each for each in self._crib.instruments if serial in ("", each.serial)]
        whole = [each for each in tools if each.name.casefold() == folded]
        return whole or [each for each in tools if folded in each.name.casefold()]

    def _check(self, _: str, place: Place | None) -> None:
        if place is None or not (label := self._label(place)):
            self.talk.say("no instrument is in use; i NAME tells which", indent="  ")
            return
        tool = self._tool(label)
        done = check(self._points(tool, place.line) if tool else (), label, self.talk, self._put)
        said = "failed" if done.failed else "passed" if done.stored else "not done"
        self.talk.say(f"check of {label}: {said}", indent="  ")

    def _points(self, tool: Instrument, line: PlanLine) -> Sequence[CheckPoint]:
        """The points of `tool` over the sizes it is for in the plan; of `line` alone where it is suggested for none."""
        numbers = {number for each, lines in self._plan.instruments if each is tool for number in lines}
        lines = [each for each in self._plan.lines if each.number in numbers] or [line]
        return check_of(tool, lines).points

    def _take(self, typed: str, place: Place) -> None:
        """A value typed at `place`: read, asked about where it is doubtful, stored, and judged."""
        line, limits = place.line, place.limits
        try:
            entry = read_entry(typed, line, limits, deviation=self._deviation)
        except ReadingError as error:
            self.talk.say(f"not taken: {error}", indent="  ", hang="    ")
            return
        if entry.value is not None and by_gauge(line) and len(line.limits) > 1 and not place.of:
            self.talk.say("not taken: it is gauged, so accept or reject (a, r)", indent="  ")
            return
        questions = doubts(line, limits, entry.value, self._label(place)) if entry.value is not None else ()
        note = entry.note
        if questions:
            for question in questions:
                self.talk.say(question, "bold", indent="  ", hang="    ")
            answer = " ".join(self.talk.ask("  keep it? y, n or a new value").split())
            if answer.lower() not in _YES:
                if answer and answer.lower() not in _NO and not self._command(answer, place):
                    self._take(answer, place)
                return
            note = "; ".join(filter(None, (note, f"asked and kept: {' / '.join(questions)}")))
        self._store(place, entry, note)

    def _store(self, place: Place, entry: Entry, note: str) -> None:
        made = place.line.characteristic
        unit = made.unit if made else ""
        row = _reading_row(place.key, entry.text, self._label(place))
        row |= {
            "lower limit": "" if place.limits.lower is None else plain(place.limits.lower),
            "upper limit": "" if place.limits.upper is None else plain(place.limits.upper),
            "unit": self._rows[place.line.number].unit, "note": note,
        }  # fmt: skip
        if not self._put(row):
            return
        self._held.setdefault(place.key, []).append(entry.text)
        self._now += 1
        if entry.value is None:
            said, style = f"stored {entry.text}", "" if entry.answer == "accept" else "bold"
        else:
            judged = self._judged(place, entry.value, unit)
            good = judged.startswith(("accept", "no limits"))
            said, style = f"stored {words.amount(entry.value, unit)}: {judged}", "" if good else "bold"
        self.talk.say(said, style, indent="  ", hang="    ")
        self._at = self._next_missing(self._at + 1)

    def _judged(self, place: Place, value: Number, unit: str) -> str:
        """The instant verdict; beyond a zone that its (M) or (L) may widen, by the size read at the same place."""
        bonus = self._bonuses.get(id(place.line))
        if bonus is None or place.limits.upper is None or Fraction(value) <= Fraction(place.limits.upper):
            return words.verdict(place.limits, value, unit)
        typed = self._held.get((bonus.size.number, place.piece, place.instance, ""), []) if bonus.size else []
        size = read_value(typed[-1], unit).value if typed else None
        return words.widened(place.limits, value, unit, bonus, size)

    def _undo(self, _: str, __: Place | None) -> None:
        if not self._stored:
            self.talk.say("there is nothing to undo", indent="  ")
            return
        last = self._stored[-1]
        row = {name: last.get(name, "") for name in ("balloon", "limits of", "piece", "instance", "unit", "instrument")}
        if not self._put(row | {"note": UNDONE}, counts=False):
            return
        self._stored.pop()
        if last["balloon"] == CHECK:
            what = f"check of {last['instrument']}, {last['limits of']}"
        else:
            key = (last["balloon"], int(last["piece"]), int(last["instance"]), last["limits of"])
            what = words.where(key)
            self._held[key].pop()
            self._now -= 1 if self._now else 0
            self._at = next((at for at, each in enumerate(self._places) if each.key == key), self._at)
        self.talk.say(f"undone: {what}, {last['value']}; it stays in the file, marked", indent="  ")

    def _put(self, row: _ROW, *, counts: bool = True) -> bool:
        """Put a row on the disk; False after saying why it is not there.

        Raises:
            OutputError: it is not there and nobody sits at the prompt to do something about it.
        """
        row = row | {"by": self._by, "when": datetime.now().astimezone().isoformat(timespec="seconds")}
        try:
            self._log.append(row)
        except OutputError as error:
            self.talk.say(str(error), "bold", indent="  ", hang="    ")
            if not self.talk.interactive:
                raise
            self.talk.say("Nothing of it is stored: make room, then type it again, or stop with q.", indent="  ")
            return False
        if counts:
            self._stored.append(row)
        return True


def _labelled(tool: Instrument) -> str:
    return f"{tool.name} #{tool.serial}" if tool.serial else tool.name


def _reading_row(key: Key, text: str, instrument: str) -> _ROW:
    line, piece, instance, of = key
    return {
        "balloon": line, "limits of": of, "piece": str(piece), "instance": str(instance), "value": text,
        "instrument": instrument,
    }  # fmt: skip


def _count(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
