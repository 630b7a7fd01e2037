"""`sizewright judge`: readings held against the plan of a sheet under a stated decision rule, and the report."""

from __future__ import annotations

import argparse
import sys
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from sizewright.cli.numbers import figure
from sizewright.cli.planned import add_planned, planned
from sizewright.cli.tell import tell

if TYPE_CHECKING:
    from sizewright.judge.model import Judgement, Rule
    from sizewright.judge.reading_files import Readings
    from sizewright.plan.model import Plan

_EPILOG = """\
examples:
  sizewright judge housing.sheet housing.readings.csv                    on the terminal
  sizewright judge housing.sheet filled.xlsx -o report.docx -o report.xlsx
  sizewright judge housing.sheet machine.csv --columns "value=Actual, balloon=Feature No, piece=Serial"
  sizewright judge housing.sheet readings.csv --rule guarded             ISO 14253-1:2017, 95 %
  sizewright judge housing.sheet readings.csv --rule guarded --guard 1   ISO 14253-1:2013, a guard band of U

Readings come from the plan's own .xlsx or .csv with the values typed in, from what `take` wrote, or from another
program's .csv by a column map. Several files are read in the order given: later readings correct earlier ones.
The exit status is 0 where the part is accepted, 3 where it is not, 1 where something cannot be used.
"""
_NOT_ACCEPTED = 3


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `judge`."""
    parser.epilog = _EPILOG
    add_planned(parser)
    parser.add_argument("readings", type=Path, nargs="+", metavar="READINGS", help="files of readings (.csv, .xlsx)")
    parser.add_argument("--columns", metavar="MAP", help="another program's column heads: 'value=Actual, balloon=No'")
    parser.add_argument(
        "-o", dest="files", type=Path, action="append", default=[], metavar="FILE", help="write the report to FILE"
    )
    parser.add_argument("--json", action="store_true", help="JSON Lines on standard output, for programs")
    parser.add_argument(
        "--rule",
        choices=["simple", "guarded"],
        default="simple",
        help="accept within the limits, or a guard band inside",
    )
    parser.add_argument("--guard", type=figure, metavar="FACTOR", help="guard band as a multiple of U (guarded)")
    parser.add_argument(
        "--conformance", type=figure, metavar="P", help="probability of conformance asked for (guarded; 0.95)"
    )
    parser.add_argument(
        "--binary", action="store_true", help="no zone between: what is not accepted is rejected (guarded)"
    )
    parser.add_argument(
        "--process-sd",
        action="append",
        default=[],
        metavar="SD",
        help="known spread of the process, for all lines (0.004) or one (2.1=0.004); may be repeated",
    )
    parser.add_argument("--summary", action="store_true", help="the one page of the summary alone (.docx)")
    parser.add_argument("--paper", choices=["A4", "Letter"], default="A4", help="paper of DOCX and XLSX")


def run(given: argparse.Namespace) -> int:
    """Judge the readings and show or write what comes of them."""
    from sizewright.output.write import check_ending

    for path in given.files:
        check_ending(path)
    rule, spread = _rule(given), _process_sd(given.process_sd)
    plan = planned(given)
    if isinstance(plan, int):
        return plan
    _check_lines(spread, plan)
    judgement = _judged(plan, _read(given, plan), rule, spread, given)
    _deliver(given, judgement)
    if plan.faults:
        return 1
    return 0 if judgement.standing == "accept" else _NOT_ACCEPTED


def _rule(given: argparse.Namespace) -> Rule:
    from sizewright.judge.model import Rule
    from sizewright.judge.rule import check_rule
    from sizewright.text.errors import InputError

    if given.rule == "simple":
        if given.guard is not None or given.conformance is not None or given.binary:
            raise InputError("--guard, --conformance and --binary belong to --rule guarded")
        return Rule("simple")
    if given.guard is not None and given.conformance is not None:
        raise InputError("--guard and --conformance are two ways to say how wide the guard band is: give one")
    conformance = Decimal("0.95") if given.conformance is None else given.conformance
    return check_rule(Rule("guarded", given.guard, conformance, given.binary))


def _process_sd(texts: list[str]) -> dict[str, Decimal] | Decimal | None:
    """One spread for all lines, or one for each line named."""
    from sizewright.text.errors import InputError

    by_line: dict[str, Decimal] = {}
    for text in texts:
        number, equals, typed = text.rpartition("=")
        try:
            value = figure(typed)
        except argparse.ArgumentTypeError as error:
            raise InputError(f"--process-sd {text!r}: {error}") from None
        if value <= 0:
            raise InputError(f"--process-sd {text!r}: a spread is above 0")
        if not equals and len(texts) == 1:
            return value
        if not equals:
            raise InputError(f"--process-sd {text!r}: with several, each names its line, as in 2.1=0.004")
        by_line[number.strip()] = value
    return by_line or None


def _check_lines(spread: dict[str, Decimal] | Decimal | None, plan: Plan) -> None:
    """Refuse a spread for a line that the plan does not have."""
    from sizewright.sheet.near import did_you_mean, near
    from sizewright.text.errors import InputError

    numbers = [line.number for line in plan.lines]
    for number in spread if isinstance(spread, dict) else ():
        if number not in numbers:
            raise InputError(
                f"--process-sd: the plan has no line {number!r} {did_you_mean(near(number, numbers))}".rstrip()
            )


def _read(given: argparse.Namespace, plan: Plan) -> list[Readings]:
    from sizewright.judge.reading_files import read_readings
    from sizewright.judge.tables import columns_of

    columns = columns_of(given.columns) if given.columns else None
    found = [read_readings(path, plan, columns) for path in given.readings]
    for each in found:
        for remark in each.remarks:
            tell(f"sizewright: {remark}")
    return found


def _judged(
    plan: Plan,
    found: list[Readings],
    rule: Rule,
    process_sd: dict[str, Decimal] | Decimal | None,
    given: argparse.Namespace,
) -> Judgement:
    from sizewright.judge.budgets import BudgetBook
    from sizewright.judge.doubts import doubts_of
    from sizewright.judge.judging import judge
    from sizewright.judge.tools import Tools

    tools = Tools(plan.crib, ())
    return judge(
        plan,
        [reading for each in found for reading in each.readings],
        rule,
        budget_for=BudgetBook(plan, lambda name: tools.of(name).owned),
        checks=[check for each in found for check in each.checks],
        unreadable=[row for each in found for row in each.unreadable],
        process_sd=process_sd,
        doubts_of=doubts_of,
        on=plan.wish.today,
        sources=[path.name for path in given.readings],
    )


def _deliver(given: argparse.Namespace, judgement: Judgement) -> None:
    if given.json:
        from sizewright.output.report_jsonl import report_jsonl

        sys.stdout.write(report_jsonl(judgement).decode())
    if given.files:
        from sizewright.output.write import write_report

        for path in given.files:
            write_report(judgement, path, given.paper, given.summary)
            tell(f"written: {path}")
    if not given.json and not given.files:
        from sizewright.output.report_terminal import print_report

        print_report(judgement)
