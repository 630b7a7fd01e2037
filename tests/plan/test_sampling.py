"""How many pieces each line is checked on, by lot, pieces and sampling."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from docx import Document
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from openpyxl import load_workbook

from sizewright.instruments.crib import crib_of
from sizewright.output.csvfile import plan_csv, read_rows, readings_csv
from sizewright.output.docx import plan_docx
from sizewright.output.front import sampling_sentences
from sizewright.output.jsonl import plan_jsonl, schema
from sizewright.output.rows import rows_of
from sizewright.output.slots import slot_count, slots_of
from sizewright.output.terminal import plan_text
from sizewright.output.xlsx import plan_xlsx
from sizewright.plan.build import build_plan
from sizewright.plan.model import Plan
from sizewright.sheet.read import read_text
from sizewright.standards.sampling import SinglePlan, lot_decision

from ..support_command import run

LINES = "1 [critical]: Ø62 +0.030/0\n2 [major]: 2x Ø6.6 ±0.1\n3 [minor]: 30 ±0.5\n4: 12 ±0.1\n5: (84)\n"
CRIB = crib_of(None)


def plan_of(*title: str, lines: str = LINES) -> Plan:
    return build_plan(read_text("\n".join((*title, lines)), Path("a.sheet")), CRIB)


# (title block, pieces of lines 1 to 4)
PIECES = [
    ((), (1, 1, 1, 1)),
    (("pieces: 3",), (3, 3, 3, 3)),
    (("lot: 20",), (20, 20, 20, 20)),  # full inspection by default
    (("lot: L-204",), (1, 1, 1, 1)),
    (("lot: 500", "pieces: 3"), (3, 3, 3, 3)),
    (("lot: 500", "sampling: II 1.0"), (50, 50, 50, 50)),
    (("lot: 20", "sampling: II 0.065"), (20, 20, 20, 20)),
    (("lot: 500", "sampling: critical all, major II 0.65, minor II 2.5"), (500, 80, 50, 500)),
    (("lot: 500", "sampling: critical all, II 1.0"), (500, 50, 50, 50)),
    (("sampling: critical 13, major 5, others 3",), (13, 5, 3, 3)),
    (("lot: 45", "sampling: every 10th"), (5, 5, 5, 5)),
    (("lot: 4", "sampling: 5 pieces"), (4, 4, 4, 4)),
    (("pieces: 8", "sampling: critical all, others 2"), (8, 2, 2, 2)),
    (("pieces: 4", 'sampling: "as agreed"'), (4, 4, 4, 4)),
    (("lot: 500", "pieces: 50", "sampling: II 1.0"), (50, 50, 50, 50)),
]


@pytest.mark.parametrize(("title", "pieces"), PIECES, ids=[" / ".join(title) for title, _ in PIECES])
def test_pieces(title: tuple[str, ...], pieces: tuple[int, ...]) -> None:
    plan = plan_of(*title)
    assert plan.faults == ()
    assert tuple(line.pieces for line in plan.lines[:4]) == pieces
    assert plan.pieces == max(pieces)


@pytest.mark.parametrize(
    ("title", "line", "message"),
    [
        (("sampling: II 1.0",), 1, "the lot entry is missing"),
        (("lot: L-204", "sampling: II 1.0"), 2, 'the lot entry "L-204" does not tell it'),
        (("lot: 1", "sampling: II 1.0"), 2, "begins at lots of 2 pieces"),
        (("sampling: all",), 1, "all of how many?"),
        (("sampling: every 10th",), 1, "every 10th of how many?"),
        (("sampling: critical 5, major 5, minor 5",), 1, "lines without a class: all of how many?"),
        (("lot: 20", "pieces: 30"), 2, "30 pieces of a lot of 20"),
        (("pieces: 10", "sampling: 5"), 1, "10 pieces, but by the sampling rule it is 5"),
        (("lot: 500", "pieces: 5", "sampling: II 1.0"), 2, "5 pieces, but by the sampling rule it is 50"),
    ],
)
def test_faults(title: tuple[str, ...], line: int, message: str) -> None:
    (fault,) = plan_of(*title).faults
    assert (fault.line, message in fault.message) == (line, True), fault.message
    assert fault.text == title[line - 1]
    assert fault.text[fault.column - 1 :][: fault.length] == title[line - 1].partition(": ")[2]
    assert fault.hint


def test_a_rule_that_does_not_read_lets_nothing_through() -> None:
    plan = plan_of("lot: 30", "sampling: II 1.1")
    assert [fault.column for fault in plan.faults] == [14]
    assert plan.pieces == 30


def test_a_line_that_asks_for_nothing_asks_for_no_lot() -> None:
    assert plan_of("sampling: major 5", lines="1 [major]: 25 ±0.1\n2: (84)").faults == ()


def test_what_is_said() -> None:
    plan = plan_of("lot: 500", "sampling: critical all, major II 1.0, others 5")
    said = sampling_sentences(plan)
    assert said[:3] == (
        "critical (1): 500 pieces; full inspection: every piece of 500",
        "major (2): 50 pieces, accept the lot on 1 or fewer nonconforming, reject it on 2 or more; "
        "ISO 2859-1, lot 500, level II (letter H), AQL 1.0: n 50, Ac 1, Re 2",
        "other lines (3, 4): 5 pieces, accept the lot on 0 nonconforming, reject it on 1 or more; "
        "5 pieces as typed, Ac 0, Re 1; no acceptance number typed, 0 taken; no plan of a standard",
    )
    whole = " ".join(said)
    for words in (
        "at random",
        "counted together",
        "rejected in any case",
        "0.715 % nonconforming is accepted 95 times",
    ):
        assert words in whole
    assert plan.lines[1].sample.startswith("ISO 2859-1, lot 500")
    decides = plan.sampling.classes[1].plan
    assert decides is not None
    assert lot_decision(decides, 2, 10) == "reject"


@pytest.mark.parametrize(
    ("title", "words"),
    [
        (("lot: 20",), 'The lot entry "20" is read as 20 pieces'),
        (("lot: 500", "pieces: 3"), "3 of the 500 pieces of the lot are checked, as typed"),
        (('sampling: "as agreed"',), 'Sampling is left to the remark "as agreed"; there is room for 1 piece.'),
        (("lot: 500", "sampling: AQL 1.0"), "level II is taken"),
        (("lot: 500", "sampling: II 1.0"), "Critical lines are sampled too"),
    ],
)
def test_what_is_taken_is_said(title: tuple[str, ...], words: str) -> None:
    assert words in " ".join(sampling_sentences(plan_of(*title)))


def test_a_plan_without_a_lot_says_nothing_of_sampling() -> None:
    assert sampling_sentences(plan_of("pieces: 3")) == ()
    assert "\nsampling\n" not in plan_text(plan_of("pieces: 3"))


SAMPLED = plan_of("lot: 500", "sampling: critical 13, major II 1.0, others 3")


def test_boxes_follow_in_every_form() -> None:
    counts = {"1": 13, "2": 100, "3": 3, "4": 3}
    rows = rows_of(SAMPLED)
    assert {row.number: slot_count(row) for row in rows if slot_count(row)} == counts
    assert {row.number: len(list(slots_of((row,)))) for row in rows if slot_count(row)} == counts
    readings = read_rows(readings_csv(SAMPLED))
    sheet = load_workbook(io.BytesIO(plan_xlsx(SAMPLED)))["readings"]
    cells = [str(cell.value) for cell in next(sheet.iter_cols(1, 1))]
    for number, count in counts.items():
        assert sum(row["balloon"] == number for row in readings) == cells.count(number) == count
    table = read_rows(plan_csv(SAMPLED))
    assert [row["readings"] for row in table] == [
        "1 on each of 13 pieces", "2 on each of 50 pieces", "1 on each of 3 pieces", "1 on each of 3 pieces", "",
    ]  # fmt: skip
    assert table[1]["sample"] == SAMPLED.lines[1].sample
    text = plan_text(SAMPLED, 120)
    assert text.index("\nsampling\n") < text.index("readings: 2 on each")


def test_json_tells_the_sampling_and_holds_to_its_schema() -> None:
    header, *lines = (json.loads(text) for text in plan_jsonl(SAMPLED).decode().splitlines())
    for each in (header, *lines):
        Draft202012Validator(schema()).validate(each)
    assert header["plan"]["sampling"]["lot"] == 500
    assert [each["accept_on"] for each in header["plan"]["sampling"]["classes"]] == [0, 1, 0]
    assert [each["line"]["pieces"] for each in lines] == [13, 50, 3, 3, 3]


def test_the_document_has_room_for_the_decision_and_no_boxes_nobody_fills() -> None:
    def text_of(plan: Plan) -> str:
        document = Document(io.BytesIO(plan_docx(plan)))
        cells = "\n".join(
            node.text
            for table in document.tables
            for node in table._tbl.iter()
            if node.tag.endswith("}t") and node.text
        )
        return cells + "\n".join(paragraph.text for paragraph in document.paragraphs)

    text = text_of(SAMPLED)
    assert "accept the lot on" in text
    assert "1 or fewer" in text
    assert "Readings for balloon 2" in text
    assert "50/2" in text
    large = text_of(plan_of("lot: 5000", "sampling: all"))
    assert "5000 readings, in the table of the XLSX form" in large
    assert "Readings for balloon" not in large
    assert len(large) < 10_000


@given(st.integers(2, 3000), st.sampled_from(["I", "II", "III", "S-2"]), st.sampled_from(["0.40", "1.0", "6.5"]))
def test_never_more_pieces_than_the_lot(lot: int, level: str, aql: str) -> None:
    plan = plan_of(f"lot: {lot}", f"sampling: critical all, {level} {aql}", lines="1 [critical]: 25 ±1\n2: 9 ±1")
    assert [line.pieces <= lot for line in plan.lines] == [True, True]
    assert plan.lines[0].pieces == plan.pieces == lot
    decides = plan.sampling.classes[1].plan
    assert isinstance(decides, SinglePlan)
    assert decides.n == plan.lines[1].pieces


@pytest.fixture
def sheet(tmp_path: Path) -> str:
    path = tmp_path / "a.sheet"
    path.write_text(f"pieces: 2\nsampling: what we always do\n{LINES}", encoding="utf-8")
    return str(path)


def test_options_stand_in_for_the_title_block(sheet: str) -> None:
    done = run("plan", sheet, "--lot", "500", "--sampling", "II 1.0", "--json")
    assert done.returncode == 0, done.stderr
    assert '"pieces: 2" of the sheet is replaced by the sampling rule given' in done.stderr
    assert '"sampling: what we always do" of the sheet is replaced by "sampling: II 1.0"' in done.stderr
    header, *lines = (json.loads(text) for text in done.stdout.splitlines())
    assert header["plan"]["title"]["lot"] == "500"
    assert {line["line"]["pieces"] for line in lines} == {50}
    assert '"lot: 500" was given with the command' in " ".join(header["plan"]["sampling"]["notes"])


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--sampling", "II 1.1", "--lot", "500"), '     ^~~\n  AQL 1.1 is not in the tables held'),
        (("--sampling", "II 1.0"), "the lot entry is missing"),
        (("--lot", "many"), "'many' is no lot"),
        (("--lot", "0"), "'0' is no lot"),
    ],
)  # fmt: skip
def test_bad_options(sheet: str, options: tuple[str, ...], said: str) -> None:
    done = run("plan", sheet, *options)
    assert (done.returncode, done.stdout) == (2, "")
    assert said in done.stderr
    assert "Traceback" not in done.stderr
