"""A judged plan on the terminal, by Rich: the verdict, what needs a look, then the lines, then instruments and rule."""

from __future__ import annotations

from collections.abc import Sequence

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table
from rich.text import Text

from sizewright.judge.model import Judgement
from sizewright.output.budgets import budget_sum, budget_title
from sizewright.output.front import heading
from sizewright.output.report_front import (
    attention,
    counts,
    lot_words,
    piece_words,
    replaced,
    report_remarks,
    verdict_words,
)
from sizewright.output.report_rows import (
    ReportRow,
    bonus_words,
    gravest_first,
    limits_words,
    place_words,
    report_rows,
)
from sizewright.output.report_tables import budgets_of, check_words, statistics_grid
from sizewright.output.safe import one_line, visible
from sizewright.output.terminal import WIDE, make_console, notes, pairs, plain_text, say, show, stack

_MOST_SHOWN = 12
_STYLES = {"accept": "", "REJECT": "bold reverse", "UNDECIDED": "bold", "INCOMPLETE": "bold", "no verdict": "dim"}


def print_report(judgement: Judgement, console: Console | None = None) -> None:
    """Print the whole judgement on `console` (standard output when none is given)."""
    console = console or make_console()
    rows = report_rows(judgement)
    say(console, Text(heading(judgement.plan), style="bold"))
    say(console, Text(verdict_words(judgement), style="bold"))
    if judgement.why:
        console.print(Text(visible(judgement.why)))
    console.print()
    pieces = [("pieces", piece_words(judgement))] if judgement.pieces else []
    lots = [("lot", text) for text in lot_words(judgement)]
    show(console, pairs([*counts(judgement), *pieces, *lots]))
    for title, texts in attention(judgement, rows):
        notes(console, title[:1].lower() + title[1:], texts)
    notes(console, "decision rule", [visible(text) for text in judgement.rule_words])
    say(console, Text("lines", style="bold"))
    show(console, _table(rows, console.width))
    notes(console, "statistics", _statistics(rows))
    budgets = [f"{budget_title(*each)}: {budget_sum(each[0])}" for each in budgets_of(rows)]
    notes(console, "uncertainty", budgets)
    notes(console, "instruments used", _instruments(judgement))
    notes(console, "corrected readings, kept and not judged", _corrected(judgement))
    notes(console, "remarks", report_remarks(judgement))
    notes(console, "cautions", [visible(caution) for caution in judgement.plan.cautions])


def report_text(judgement: Judgement, width: int = 100) -> str:
    """The judgement as `print_report` shows it, as plain text without escape sequences."""
    return plain_text(lambda console: print_report(judgement, console), width)


def _table(rows: Sequence[ReportRow], screen: int) -> Table:
    """A row a line; on a narrow screen limits and readings share a column."""
    wide = screen >= WIDE
    table = Table(box=SIMPLE_HEAD, safe_box=True, padding=(0, 1), pad_edge=False, collapse_padding=True, width=screen)
    table.add_column("no.", no_wrap=True, width=max(3, *(len(row.number) for row in rows), 0))
    table.add_column("requirement", overflow="fold", ratio=3)
    if wide:
        table.add_column("limits", overflow="fold", ratio=3)
    table.add_column("readings" if wide else "limits, readings", overflow="fold", ratio=4)
    table.add_column("verdict", no_wrap=True, width=10)
    for row in rows:
        limits, readings = _limits(row), _readings(row)
        shown = [Text("\n".join(limits)), Text("\n".join(readings))] if wide else [Text("\n".join(limits + readings))]
        verdict = Text(row.verdict, style=_STYLES[row.verdict])
        table.add_row(row.number, stack(row.requirement, [row.why] if row.why else []), *shown, verdict)
        table.add_section()
    return table


def _limits(row: ReportRow) -> list[str]:
    several = len(row.limits) > 1
    texts = [f"{f'{bound.label}: ' if several else ''}{limits_words(bound, row.unit)}" for bound in row.limits]
    texts += [f"accepted {f'{zone.of}: ' if several else ''}{limits_words(zone, row.unit)}" for zone in row.acceptance]
    return texts


def _readings(row: ReportRow) -> list[str]:
    if len(row.readings) > _MOST_SHOWN:
        ends = [
            f"{f'{visible(given.of)}: ' if given.of else ''}least {least}, greatest {greatest}"
            for given, least, greatest in row.summed
        ]
        ends += [bonus_words(row)] if bonus_words(row) else []
        bad = gravest_first(row.readings)
        marked = [f"{place_words(each.outcome)} {each.value} ({each.told})" for each in bad[:_MOST_SHOWN]]
        more = [f"and {len(bad) - _MOST_SHOWN} more"] if len(bad) > _MOST_SHOWN else []
        return [f"{len(row.readings)} readings", *ends, *marked, *more]
    groups: dict[str, list[str]] = {}
    for each in row.readings:
        mark = f" ({each.told})" if each.told else ""
        groups.setdefault(each.of, []).append(f"{place_words(each.outcome)} {each.value}{mark}")
    return [f"{f'{visible(of)}: ' if of else ''}{', '.join(texts)}" for of, texts in groups.items()]


def _statistics(rows: Sequence[ReportRow]) -> list[str]:
    """What repeated readings come to, one sentence for each pair of limits."""
    grid = statistics_grid([row for row in rows if any(each.spread is not None for each in row.judged.statistics)])
    heads = [field.head for field in grid.fields]
    texts = []
    for number, of, unit, *figures in grid.rows:
        said_ = [f"{head} {text}" for head, text in zip(heads[3:], figures, strict=True) if text]
        texts.append(f"{number}{f' {of}' if of else ''}, {unit}: {', '.join(said_)}")
    return texts


def _instruments(judgement: Judgement) -> list[str]:
    texts = []
    for use in judgement.instruments:
        named = [one_line(use.name) or "not named"]
        named += [f"{word} {one_line(text)}" for word, text in (("serial", use.serial), ("due", use.due)) if text]
        checks = "; ".join(map(check_words, use.checks)) or "no check recorded"
        lines = f"for {one_line(', '.join(use.lines))}" if use.lines else "no reading names it"
        texts.append(f"{', '.join(named)}; {lines}; {checks}")
    return texts


def _corrected(judgement: Judgement) -> list[str]:
    return [
        ", ".join(
            filter(None, (f"{number}, {each.piece}/{each.instance}: {one_line(each.typed)}", one_line(each.by),
                          one_line(each.when), one_line(each.note)))
        )
        for number, each in replaced(judgement)
    ]  # fmt: skip
