from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from sizewright.output.check_slots import check_slots
from sizewright.output.csvfile import plan_csv, read_rows, readings_csv
from sizewright.output.jsonl import plan_jsonl, schema
from sizewright.plan.model import Plan

from .conftest import needed, run
from .plans import ACTING, INJECTIONS, hostile, housing, long_plan, saddle

PLANS = {"housing": housing(), "saddle": saddle(), "long": long_plan(), "hostile": hostile()}


def test_csv_has_a_row_a_line_and_reads_back() -> None:
    data = plan_csv(housing())
    assert data.startswith(b"\xef\xbb\xbf")
    rows = read_rows(data)
    assert [line.callout for line in housing().lines] == [row["callout"] for row in rows]
    assert (rows[0]["lower limit"], rows[0]["upper limit"]) == ("62.000", "62.030")
    assert rows[13]["lower limit"] == "-0.35"


def test_csv_readings_have_empty_places_to_fill() -> None:
    checks = list(check_slots(long_plan(3)))
    first, rows = (
        read_rows(readings_csv(long_plan(3)))[: len(checks)],
        read_rows(readings_csv(long_plan(3)))[len(checks) :],
    )
    assert {row["balloon"] for row in first} == {"check"}
    assert [row["instrument"] for row in first] == [slot.tool for slot in checks]
    assert len(rows) == sum(line.readings_per_piece for line in long_plan().lines) * 3
    assert {row["value"] + row["instrument"] + row["by"] + row["when"] for row in rows} == {""}
    assert [row["limits of"] for row in read_rows(readings_csv(housing(1))) if row["balloon"] == "14"] == [
        "major diameter",
        "pitch diameter",
        "minor diameter",
    ]


def test_csv_text_does_not_compute_and_comes_back() -> None:
    data = plan_csv(hostile())
    cells = [row["callout"] for row in csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline=""))]
    assert not [cell for cell in cells if cell[:1] in "=+-@"]
    assert [row["callout"] for row in read_rows(data)][:-1] == list(INJECTIONS)


def test_csv_in_a_spreadsheet_shows_text(
    tmp_path: Path, sheets: Callable[[Path], dict[str, list[dict[str, str]]]]
) -> None:
    program = needed("ssconvert")
    (tmp_path / "plan.csv").write_bytes(plan_csv(hostile()))
    run(program, str(tmp_path / "plan.csv"), str(tmp_path / "plan.xlsx"))
    shown = [row["callout"].lstrip("'") for row in next(iter(sheets(tmp_path / "plan.xlsx").values()))]
    assert [text.lstrip("'") for text in INJECTIONS if text != "#N/A"] == [
        text for text in shown[:-1] if text != "#N/A"
    ]


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_jsonl_holds_to_its_schema(plan: Plan) -> None:
    Draft202012Validator.check_schema(schema())
    validator = Draft202012Validator(schema())
    objects = [json.loads(line) for line in plan_jsonl(plan).decode().splitlines()]
    for each in objects:
        validator.validate(each)
    assert list(objects[0]) == ["plan"]
    assert {tuple(each) for each in objects[1:]} == {("line",)}
    assert objects[0]["plan"]["lines"] == len(objects) - 1


def test_the_schema_refuses_what_is_not_a_plan() -> None:
    validator = Draft202012Validator(schema())
    line = json.loads(plan_jsonl(housing()).decode().splitlines()[1])
    line["line"]["limits"][0]["lower"] = 62.0
    assert not validator.is_valid(line)
    assert not validator.is_valid({"line": {}})
    assert not validator.is_valid({})


def test_jsonl_keeps_typed_text_exactly_and_nothing_in_it_acts() -> None:
    data = plan_jsonl(hostile()).decode()
    assert [json.loads(line)["line"]["callout"] for line in data.splitlines()[1:]] == [*INJECTIONS, ACTING]
    assert not [char for char in data if char != "\n" and (ord(char) < 0x20 or char in ACTING[-4:-1] + "\u202e\x9b")
                and not char.isascii()]  # fmt: skip


def test_jsonl_numbers_are_exact_text() -> None:
    line = json.loads(plan_jsonl(housing()).decode().splitlines()[1])["line"]
    assert line["characteristic"]["limits"] == [{"of": "size", "lower": "62.000", "upper": "62.030"}]
    assert line["other"] == {"unit": "inch", "limits": [{"of": "size", "lower": "2.44095", "upper": "2.44212"}]}
    assert line["instrument"]["resolution_asked"] == {"value": "0.003", "unit": "mm"}
    assert (line["aim"], line["unit"]) == ("62.015", "mm")
