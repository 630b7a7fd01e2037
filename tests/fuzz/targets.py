"""What is fuzzed: each target takes bytes, and raises where a rule is broken.

The first byte chooses under what the rest is read (unit, word of the title block, command), the rest is what a person
types. Text may hold bytes that are no text: they come as they come from a command line.
"""

from __future__ import annotations

import contextlib
import io
from collections.abc import Callable
from decimal import Decimal
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from sizewright.notation.read import read_callout, read_general
from sizewright.resolve.answer import answer, answer_json
from sizewright.resolve.context import Context
from sizewright.text.errors import CalloutError, SizewrightError
from sizewright.text.fold import fold

from .checks import clean, clean_json, expect

if TYPE_CHECKING:
    import argparse

    from sizewright.instruments.shelf import Crib
    from sizewright.plan.model import Plan

DRAWN = Path(__file__).resolve().parents[2] / "samples"
PLAN = """\
part: Worm carrier
unit: mm
general: ISO 2768-mK
pieces: 2
1: Ø25 H7
2: 2x Ø6.6 ±0.2
3: 30° ±0°30'
4: M42x0.75-6g
5: M6-6H
6: ⟂ Ø0.02 A
7: Ra 0.8
8: (84)
9: 1.2500 in +.0005/-.0000
10: 1:10 ±0.001
"""


class Target(NamedTuple):
    """A thing that is fuzzed: the check, the longest input that makes sense, and how often a long run tries it."""

    check: Callable[[bytes], None]
    longest: int
    runs: int


def typed(data: bytes) -> tuple[int, str]:
    """The choice that the first byte is, and the text after it."""
    return (data[0] if data else 0), data[1:].decode("utf-8", "surrogateescape")


@cache
def contexts() -> tuple[Context, ...]:
    """The title blocks under which callouts are read."""
    metric, inch = read_general("ISO 2768-mK"), read_general(".XX ±.01, .XXX ±.005, angles ±1°")
    return (
        Context(), Context("inch", "asme"), Context("mm", "asme"), Context("inch", "iso"),
        Context("mm", "iso", metric), Context("inch", "asme", inch), Context("mm", "asme", inch),
        Context("inch", "asme", None, "1989"),
    )  # fmt: skip


@cache
def crib() -> Crib:
    """The crib of the package."""
    from sizewright.instruments.crib import default_crib

    return default_crib()


@cache
def plan() -> Plan:
    """A small plan that has a line of every sort."""
    from sizewright.plan.build import build_plan
    from sizewright.sheet.read import read_text

    return build_plan(read_text(PLAN, Path("carrier.sheet")), crib())


def fold_target(data: bytes) -> None:
    """Folding keeps the way back to every character."""
    text = data.decode("utf-8", "surrogateescape")
    try:
        source = fold(text)
    except CalloutError:
        return
    ends = [source.span(i, i + 1) for i in range(len(source.folded))]
    expect(all(0 <= a < b <= len(text) for a, b in ends), "a folded character has no place in the text as typed")
    expect(all(one[0] <= two[0] for one, two in pairwise(ends)), "places do not go forward")


def notation(data: bytes) -> None:
    """A callout is answered or refused at its place, in JSON and in words; what it says is written and read again."""
    from sizewright.output.explain import explain
    from sizewright.text.json_lines import dumped

    choice, text = typed(data)
    given = answer(text, contexts()[choice & 7])
    said = clean_json(dumped(answer_json(given)))
    expect(isinstance(said, dict) and said["callout"] == text, "the answer tells another callout than was typed")
    if given.error is not None:
        expect(1 <= given.error.column <= len(text) + 1, "the fault stands outside of the text")
        expect(given.error.column + given.error.length <= len(text) + 1, "the fault ends outside of the text")
    else:
        _written_again(text)
    if choice & 8:
        clean(explain(given, crib()), "the answer in words")


def _written_again(text: str) -> None:
    from sizewright.notation.write import write_callout

    model = read_callout(text).callout
    for manner, unit in (("iso", "mm"), ("asme", "inch")):
        written = write_callout(model, manner, unit)  # type: ignore[arg-type]
        try:
            again = read_callout(written).callout
        except CalloutError as error:
            raise AssertionError(f"what was written does not read: {written!r}: {error.message}") from None
        expect(again == model, "what was written reads as something else")


def restated(data: bytes) -> None:
    """A callout restated in the other unit reads, or says why there is none."""
    from sizewright.cli.restate import restated as made_of

    choice, text = typed(data)
    context = contexts()[choice & 7]
    try:
        made = made_of(text, context, "asme" if choice & 8 else "iso", "inch" if choice & 16 else "mm")
    except CalloutError:
        return
    clean("\n".join((made.text, *made.remarks)), "what is restated")


def general(data: bytes) -> None:
    """General tolerances read or are refused at their place."""
    text = data.decode("utf-8", "surrogateescape")
    try:
        read_general(text)
    except CalloutError as error:
        _placed(error, text)


def sampling(data: bytes) -> None:
    """A sampling rule and a lot read or are refused at their place."""
    from sizewright.sheet.sampling import lot_size, read_sampling

    text = data.decode("utf-8", "surrogateescape")
    lot = lot_size(text)
    expect(lot is None or 1 <= lot <= 1_000_000, "a lot of a size that no lot has")
    try:
        read_sampling(text)
    except CalloutError as error:
        _placed(error, text)


def title(data: bytes) -> None:
    """A value of the title block is kept in its one spelling, which stays, or is refused at its place."""
    from sizewright.instruments.environment import environment_of
    from sizewright.sheet.title import WORDS, checked, near_words, title_word

    choice, text = typed(data)
    word = WORDS[choice % len(WORDS)]
    if word in ("general", "sampling"):
        title_word(text)
        near_words(text)
        return
    try:
        value = checked(word, text)
    except CalloutError as error:
        _placed(error, text)
        return
    expect(checked(word, value) == value, f"a second reading changes {word}")
    if word == "temperature":
        room = environment_of("steel", value)
        expect(room.temperature.is_finite() and room.spread >= 0, "a temperature that is none")
    elif word == "material":
        environment_of(value)


def values(data: bytes) -> None:
    """A reading is exact or refused; what the log would hold reads as the same value."""
    from sizewright.judge.entries import read_entry
    from sizewright.judge.values import ReadingError, read_value
    from sizewright.text.numbers import plain

    choice, text = typed(data)
    units = ("mm", "inch", "um", "uin", "deg", "ratio", "HRC", "")
    with contextlib.suppress(ReadingError):
        found = read_value(text, units[choice & 7], ("", "mm", "in", "°")[choice >> 3 & 3])
        expect((found.value is None) is not (found.answer is None), "a value that is both or nothing")
        if found.value is not None:
            expect(not isinstance(found.value, Decimal) or found.value.is_finite(), "a value that is no number")
            plain(found.value)
    pairs = [(line, limits) for line in plan().lines for limits in line.limits]
    line, limits = pairs[choice % len(pairs)]
    try:
        entry = read_entry(text, line, limits, deviation=bool(choice & 128))
    except ReadingError:
        return
    unit = line.characteristic.unit if line.characteristic else ""
    again = read_value(entry.text, unit)
    expect((again.value, again.answer) == (entry.value, entry.answer), "the log would read as another value")


def sheet(data: bytes) -> None:
    """A sheet's faults lie in it and can be shown; a sheet without any is written and read again."""
    from sizewright.output.sheet_text import sheet_text
    from sizewright.sheet.faults import faults_text
    from sizewright.sheet.read import read_text

    text = data.decode("utf-8", "surrogateescape").replace("\r\n", "\n").replace("\r", "\n")
    found = read_text(text, Path("x.sheet"))
    rows = text.split("\n")
    for fault in found.faults:
        expect(1 <= fault.line <= len(rows), "a fault on a line that is not there")
        expect(fault.column - 1 + fault.length <= len(fault.text), "a fault that ends outside of its line")
    clean(faults_text(found.source, found.faults), "the faults as shown")
    if found.faults:
        return
    entries = {word: entry.value for word, entry in found.title.items()}
    again = read_text(sheet_text(entries, [(line, line.callout) for line in found.lines]), Path("x.sheet"))
    kept = [(line.balloon, line.callout, line.zone, line.class_) for line in found.lines]
    expect(not again.faults, "a sheet written out has faults")
    expect([(li.balloon, li.callout, li.zone, li.class_) for li in again.lines] == kept, "a sheet written out changes")


def cribs(data: bytes) -> None:
    """A crib reads whole or tells its faults; instruments are chosen from it."""
    from sizewright.instruments.choose import choose
    from sizewright.instruments.crib import parse_crib

    try:
        found = parse_crib(data.decode("utf-8", "replace"))
    except SizewrightError:
        return
    for line in plan().lines[:: 1 + len(data) % 3]:
        if line.characteristic is not None:
            choose(line.characteristic, found)


def numbers(data: bytes) -> None:
    """Numbers of the command line, and column maps."""
    import argparse

    from sizewright.cli.numbers import figure, offset, size, width
    from sizewright.judge.tables import columns_of
    from sizewright.text.numbers import plain

    choice, text = typed(data)
    with contextlib.suppress(argparse.ArgumentTypeError):
        expect(len(plain((figure, offset, size, width)[choice & 3](text))) < 40, "a number that no line holds")
    if choice & 4:
        with contextlib.suppress(SizewrightError):
            columns_of(text)


_COMMANDS = ("class", "thread", "position", "key", "read")


@cache
def _parser() -> argparse.ArgumentParser:
    from sizewright.cli.main import make_parser

    return make_parser()


def arguments(data: bytes) -> None:
    """Commands with any arguments, one a line: an answer, a refusal, or wrong use; nothing that acts is printed."""
    from importlib import import_module

    from sizewright.cli.main import COMMANDS

    choice, text = typed(data)
    name = _COMMANDS[choice % len(_COMMANDS)]
    given = [each for each in text.split("\n") if not each.startswith(("--picture", "--crib"))]
    if name == "read":
        given.append("25")  # standard input is not asked
    said, told = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(said), contextlib.redirect_stderr(told):
        try:
            options = _parser().parse_args([name, *given])
            if getattr(options, "callouts", []) != ["-"]:
                import_module(f"sizewright.cli.{COMMANDS[name][0]}").run(options)
        except SystemExit as end:
            expect(end.code in (0, 2), "an exit status that means nothing")
        except SizewrightError:
            return
    clean(said.getvalue(), "standard output")
    clean(told.getvalue(), "standard error")


def _placed(error: CalloutError, text: str) -> None:
    expect(error.message, "a refusal without a reason")
    expect(1 <= error.column <= len(text) + 1, "the fault stands outside of the text")
    expect(error.column + error.length <= len(text) + 1, "the fault ends outside of the text")
