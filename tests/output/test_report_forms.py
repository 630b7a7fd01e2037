"""The report as CSV, JSON Lines and on the terminal, and into files."""

from __future__ import annotations

import csv
import io
import json
from decimal import Decimal
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from rich.cells import cell_len

from sizewright.judge.judging import judge
from sizewright.judge.model import Judgement, LotJudgement, Reading
from sizewright.output.columns import is_number
from sizewright.output.csvfile import read_rows
from sizewright.output.jsonl import schema
from sizewright.output.report_csv import report_csv
from sizewright.output.report_front import lot_words, piece_words, simply_good
from sizewright.output.report_jsonl import report_jsonl
from sizewright.output.report_terminal import print_report, report_text
from sizewright.output.safe import computes
from sizewright.output.terminal import make_console
from sizewright.output.write import ENDINGS, write_report
from sizewright.text.errors import InputError, OutputError
from sizewright.text.numbers import plain

from .judgements import GUARDED, GUARDED_WORDS, SIMPLE, hostile_judgement, judged, sample_plan, with_troubles
from .plans import ACTING, INJECTIONS, housing, saddle
from .test_report_docx import mixed, opened

TROUBLED = with_troubles(judged(sample_plan("worm-housing"), mixed))
JUDGEMENTS = {
    "good": judged(sample_plan("bearing-cap")),
    "troubled": TROUBLED,
    "guarded": judged(sample_plan("counterweight-bar", 30), mixed, GUARDED),
    "unread": with_troubles(judged(sample_plan("faulty-saddle"))),
    "every status": judged(housing()),
    "inch": judged(saddle()),
    "hostile": hostile_judgement(),
    "nothing read": judged(sample_plan("worm-housing"), lambda *_: None),
}


def test_csv_has_a_row_a_reading_and_loses_nothing() -> None:
    rows = read_rows(report_csv(TROUBLED))
    judged_rows = [row for row in rows if row["verdict"] in ("accept", "reject", "undecided")]
    outcomes = [each for line in TROUBLED.lines for each in line.outcomes]
    assert [row["as typed"] for row in judged_rows] == [each.reading.typed for each in outcomes]
    assert [row["verdict"] for row in judged_rows] == [each.verdict for each in outcomes]
    assert [row["notes"] for row in rows if row["verdict"] == "replaced"] == ["read upside down"]
    unreadable = next(row for row in rows if row["verdict"] == "unreadable")
    assert (unreadable["as typed"], unreadable["where it stands"]) == ("3; two and a half", "readings.csv, row 9")
    assert {row["balloon"] for row in rows if row["balloon"]} == {each.line.number for each in TROUBLED.lines}


def test_csv_tells_limits_zone_and_what_was_doubted() -> None:
    first = read_rows(report_csv(JUDGEMENTS["guarded"]))[0]
    assert (first["lower limit"], first["upper limit"]) == ("17.95", "17.98")
    assert (first["accepted from"], first["accepted to"]) == ("17.954", "17.976")
    assert first["probability within limits"] == "0.9973"
    assert "decimal mark" in read_rows(report_csv(TROUBLED))[0]["notes"]


def test_csv_text_does_not_compute_and_comes_back() -> None:
    data = report_csv(JUDGEMENTS["hostile"])
    notes = [row["by"] for row in read_rows(data) if row["verdict"] == "replaced"]
    assert notes[: len(INJECTIONS)] == list(INJECTIONS)
    cells = [cell for row in csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")) for cell in row]
    assert not [cell for cell in cells if computes(cell) and not is_number(cell) and not cell.startswith("'")]


@pytest.mark.parametrize("judgement", JUDGEMENTS.values(), ids=JUDGEMENTS)
def test_jsonl_holds_to_its_schema(judgement: Judgement) -> None:
    Draft202012Validator.check_schema(schema("judge"))
    validator = Draft202012Validator(schema("judge"))
    objects = [json.loads(line) for line in report_jsonl(judgement).decode().splitlines()]
    for each in objects:
        validator.validate(each)
    assert list(objects[0]) == ["judgement"]
    assert {tuple(each) for each in objects[1:]} == {("line",)}
    assert objects[0]["judgement"]["lines"] == len(objects) - 1


def test_the_schema_refuses_what_is_not_a_judgement() -> None:
    validator = Draft202012Validator(schema("judge"))
    line = json.loads(report_jsonl(TROUBLED).decode().splitlines()[1])
    assert validator.is_valid(line)
    line["line"]["outcomes"][0]["reading"]["value"] = 62.0
    assert not validator.is_valid(line)
    assert not validator.is_valid({"line": {}})
    assert not validator.is_valid({})


def test_jsonl_keeps_typed_text_exactly_and_nothing_in_it_acts() -> None:
    data = report_jsonl(JUDGEMENTS["hostile"]).decode()
    lines = [json.loads(line)["line"] for line in data.splitlines()[1:]]
    assert [line["outcomes"][0]["reading"]["typed"] for line in lines] == [*INJECTIONS, ACTING]
    assert not [char for char in data if char != "\n" and (ord(char) < 0x20 or char in "\u202e\x9b\x7f")]


def test_jsonl_numbers_are_exact_text() -> None:
    header, first = (json.loads(line) for line in report_jsonl(TROUBLED).decode().splitlines()[:2])
    outcome = first["line"]["outcomes"][0]
    assert outcome["limits"] == {"lower": "62", "upper": "62.030"}
    assert outcome["conformance"] == "0.9973"
    assert first["line"]["budget"]["terms"][2]["dof"] == "9"
    assert first["line"]["statistics"][0]["count"] == 3
    assert header["judgement"]["instruments"][0]["checks"][1]["passed"] is False
    assert header["judgement"]["unreadable"][0]["text"] == "3; two and a half"


@pytest.mark.parametrize("width", [80, 120])
@pytest.mark.parametrize("judgement", JUDGEMENTS.values(), ids=JUDGEMENTS)
def test_the_terminal_keeps_to_its_width_and_cuts_no_number(judgement: Judgement, width: int) -> None:
    text = report_text(judgement, width)
    assert max(cell_len(line) for line in text.splitlines()) <= width
    assert "\x1b" not in text
    shown = set(text.replace(",", " ").replace("(", " ").split())
    for line in judgement.lines:
        if len(line.outcomes) <= 12:
            for each in line.outcomes:
                if isinstance(each.reading.value, Decimal):
                    assert plain(each.reading.value) in shown


def test_the_terminal_says_the_verdict_first_and_what_needs_a_look_before_the_lines() -> None:
    text = report_text(TROUBLED, 80)
    order = [
        "REJECTED",
        "rejected\n",
        "readings in doubt",
        "decision rule",
        "\nlines\n",
        "\nuncertainty\n",
        "instruments used",
    ]
    places = [text.index(each) for each in order]
    assert places == sorted(places)
    assert GUARDED_WORDS[0] in " ".join(report_text(JUDGEMENTS["guarded"], 200).split())


def test_the_terminal_gets_no_escape_sequence_from_typed_text(capsys: pytest.CaptureFixture[str]) -> None:
    print_report(JUDGEMENTS["hostile"], make_console(width=100))
    shown = capsys.readouterr().out
    assert "\x1b" not in shown
    assert "[red]x[/red]" in shown


@pytest.mark.parametrize("ending", ENDINGS)
def test_each_ending_tells_its_form(tmp_path: Path, ending: str) -> None:
    path = tmp_path / f"report{ending}"
    write_report(TROUBLED, path, "Letter")
    assert path.stat().st_size > 500
    assert [each.name for each in tmp_path.iterdir()] == [path.name]


def test_what_cannot_be_written_is_said(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="known are"):
        write_report(TROUBLED, tmp_path / "report.pdf")
    with pytest.raises(InputError, match=r"the summary alone is written as \.docx"):
        write_report(TROUBLED, tmp_path / "report.csv", summary_only=True)
    with pytest.raises(OutputError, match="does not exist"):
        write_report(TROUBLED, tmp_path / "nowhere" / "report.csv")
    write_report(TROUBLED, tmp_path / "report.docx", summary_only=True)


def test_pieces_of_one_standing_are_said_together() -> None:
    given = TROUBLED._replace(
        pieces=((1, "accept"), (2, "reject"), (3, "accept"), (4, "accept"), (5, "accept"), (7, "undecided"))
    )
    assert piece_words(given) == "accepted: 1, 3 to 5; rejected: 2; undecided: 7"


def test_what_a_sample_decides_on_its_lot_is_told_in_every_form() -> None:
    lot = LotJudgement(
        "critical", ("1", "3"), 20, (4, 7), (), 1, 2, "reject", "lot rejected: 2 nonconforming of 20, Re 2"
    )
    given = JUDGEMENTS["good"]._replace(lots=(lot,))
    sentence = "critical (lines 1, 3): lot rejected: 2 nonconforming of 20, Re 2; nonconforming pieces 4, 7"
    assert not simply_good(given)
    assert sentence in " ".join(report_text(given, 200).split())
    assert lot_words(given) == (sentence,)
    header = json.loads(report_jsonl(given).splitlines()[0])
    Draft202012Validator(schema("judge")).validate(header)
    assert header["judgement"]["lots"][0]["nonconforming"] == [4, 7]
    assert sentence in [each.text.removeprefix("–\t") for each in opened(given).paragraphs]


def test_a_plan_judged_in_earnest_goes_into_every_form(tmp_path: Path) -> None:
    """From the judging itself, not from the tests' own factory; a piece is missing and a reading has no place."""
    plan = sample_plan("worm-housing")
    taken = [each.reading for line in TROUBLED.lines for each in line.outcomes if each.reading.piece < 3]
    stray = Reading("99", 1, 1, "", "4.2", Decimal("4.2"), None, "mm")
    given = judge(plan, [*taken, stray], SIMPLE, budget_for=lambda *_: None)
    for ending in ENDINGS:
        write_report(given, tmp_path / f"report{ending}")
    write_report(given, tmp_path / "page.docx", summary_only=True)
    assert "REJECTED" in (tmp_path / "report.txt").read_text(encoding="utf-8")
    for line in (tmp_path / "report.jsonl").read_text(encoding="utf-8").splitlines():
        Draft202012Validator(schema("judge")).validate(json.loads(line))
