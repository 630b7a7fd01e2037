"""Write a plan to a file, in the form that the file's ending names."""

from __future__ import annotations

import gc
import sys
from collections.abc import Callable
from pathlib import Path

from sizewright.judge.model import Judgement
from sizewright.output.atomic import write_whole
from sizewright.output.endings import known_ending
from sizewright.output.safe import one_line
from sizewright.plan.model import Plan
from sizewright.text.errors import InputError, OutputError

# Each form imports its library only when it is asked for: most runs of the command need none of them.


def _docx(plan: Plan, paper: str) -> bytes:
    from sizewright.output.docx import plan_docx

    return plan_docx(plan, paper)


def _xlsx(plan: Plan, paper: str) -> bytes:
    from sizewright.output.xlsx import plan_xlsx

    return _workbook(lambda: plan_xlsx(plan, paper))


def _csv(plan: Plan, _: str) -> bytes:
    from sizewright.output.csvfile import plan_csv

    return plan_csv(plan)


def _jsonl(plan: Plan, _: str) -> bytes:
    from sizewright.output.jsonl import plan_jsonl

    return plan_jsonl(plan)


def _txt(plan: Plan, _: str) -> bytes:
    from sizewright.output.terminal import plan_text

    return plan_text(plan).encode("utf-8")


_FORMS: dict[str, Callable[[Plan, str], bytes]] = {
    ".docx": _docx,
    ".xlsx": _xlsx,
    ".csv": _csv,
    ".jsonl": _jsonl,
    ".txt": _txt,
}
ENDINGS = tuple(_FORMS)


def check_ending(path: Path) -> None:
    """Refuse a file whose ending tells no form, before any work is done for it.

    Raises:
        InputError: the ending is unknown.
    """
    known_ending(path, _FORMS)


def write_plan(plan: Plan, path: Path, paper: str = "A4") -> None:
    """Write `plan` to `path`, whole or not at all; `paper` (A4 or Letter) is for DOCX and XLSX.

    Raises:
        InputError: the ending or the paper is unknown.
        OutputError: the file cannot be written; what stood there is untouched.
    """
    check_ending(path)
    write_whole(path, _FORMS[path.suffix.lower()](plan, paper))


def write_readings(plan: Plan, path: Path) -> None:
    """Write the table in which the plan's readings are typed, as CSV (the XLSX form of a plan holds it as a sheet).

    Raises:
        InputError: the ending is not .csv.
        OutputError: the file cannot be written; what stood there is untouched.
    """
    if path.suffix.lower() != ".csv":
        raise InputError(f"{one_line(path.name)}: a table for readings alone is written as .csv")
    from sizewright.output.csvfile import readings_csv

    write_whole(path, readings_csv(plan))


def write_report(judgement: Judgement, path: Path, paper: str = "A4", summary_only: bool = False) -> None:
    """Write the report of `judgement` to `path`, whole or not at all.

    `paper` (A4 or Letter) is for DOCX and XLSX; with `summary_only` a DOCX is the one page of its summary.

    Raises:
        InputError: the ending or the paper is unknown, or there is no summary alone in that form.
        OutputError: the file cannot be written; what stood there is untouched.
    """
    check_ending(path)
    ending = path.suffix.lower()
    if summary_only and ending != ".docx":
        raise InputError(f"{one_line(path.name)}: the summary alone is written as .docx")
    write_whole(path, _report(judgement, ending, paper, summary_only))


def _report(judgement: Judgement, ending: str, paper: str, summary_only: bool) -> bytes:
    if ending == ".docx":
        from sizewright.output.report_docx import report_docx

        return report_docx(judgement, paper, summary_only)
    if ending == ".xlsx":
        from sizewright.output.report_xlsx import report_xlsx

        return _workbook(lambda: report_xlsx(judgement, paper))
    if ending == ".csv":
        from sizewright.output.report_csv import report_csv

        return report_csv(judgement)
    if ending == ".jsonl":
        from sizewright.output.report_jsonl import report_jsonl

        return report_jsonl(judgement)
    from sizewright.output.report_terminal import report_text

    return report_text(judgement).encode("utf-8")


def _workbook(make: Callable[[], bytes]) -> bytes:
    """A workbook, whose parts its library puts into the folder for temporary files before it packs them.

    Raises:
        OutputError: there is no room.
    """
    from lxml.etree import LxmlError

    usual = sys.unraisablehook
    try:
        return make()
    except (OSError, LxmlError) as error:
        told = str(error)
        sys.unraisablehook = lambda _: None  # what the library left open complains as it is given up
    gc.collect()
    sys.unraisablehook = usual
    raise OutputError(f"no room in the folder for temporary files to make the workbook ({told})")
