"""`sizewright judge` and `sizewright budget` as a user runs them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from sizewright.output.jsonl import schema

from ..support_command import ROOT, run

SHEET = """part: Slow-motion knob
drawing: TM-512
material: free-cutting brass C360
temperature: 21 ±1 °C
pieces: 2

1: Ø12 h9
2: 2x Ø4.2 ±0.1
3: (30)
"""
GOOD = {"1": ["11.98", "11.97"], "2": ["4.21", "4.2", "4.18", "4.25"]}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "knob.sheet").write_text(SHEET, encoding="utf-8")
    return tmp_path


def readings(folder: Path, values: dict[str, list[str]], more: str = "") -> None:
    rows = ["balloon,piece,instance,value,instrument,when"]
    for balloon, typed in values.items():
        places = len(typed) // 2
        rows += [f"{balloon},{i // places + 1},{i % places + 1},{value},," for i, value in enumerate(typed)]
    (folder / "r.csv").write_text("\n".join(rows) + f"\n{more}", encoding="utf-8")


def judge(folder: Path, *options: str) -> tuple[int, str, str]:
    done = run("judge", "knob.sheet", "r.csv", *options, cwd=folder)
    assert "Traceback" not in done.stderr
    return done.returncode, done.stdout, done.stderr


def test_a_part_that_is_good_is_accepted(folder: Path) -> None:
    readings(folder, GOOD)
    status, shown, _ = judge(folder)
    assert status == 0
    assert "\nACCEPTED\n" in shown
    assert "Simple acceptance (ASME B89.7.3.1, JCGM 106)" in shown
    assert max(map(len, shown.splitlines())) <= 80


# readings, more rows, options, status, words of the verdict
CASES = [
    ({**GOOD, "1": ["12.001", "11.97"]}, "", (), 3, "REJECTED"),
    ({**GOOD, "1": ["12", "11.957"]}, "", (), 0, "ACCEPTED"),  # a reading on a limit complies
    ({**GOOD, "1": ["12", "11.97"]}, "", ("--rule", "guarded"), 3, "UNDECIDED"),
    ({**GOOD, "1": ["12", "11.97"]}, "", ("--rule", "guarded", "--binary"), 3, "REJECTED"),
    ({**GOOD, "1": ["11.98", "11.97"]}, "", ("--rule", "guarded", "--guard", "1"), 0, "ACCEPTED"),
    ({"1": ["11.98", "11.97"]}, "", (), 3, "INCOMPLETE"),
    (GOOD, "1,1,1,12.2,,\n", (), 3, "REJECTED"),  # a later reading corrects
    ({**GOOD, "1": ["12.2", "11.97"]}, "1,1,1,11.98,,\n", (), 0, "ACCEPTED"),
    (GOOD, "9,1,1,5,,\n", (), 0, "ACCEPTED"),  # a row for no line is kept and told
]


@pytest.mark.parametrize(("values", "more", "options", "status", "verdict"), CASES)
def test_the_verdict_follows_the_rule(
    folder: Path, values: dict[str, list[str]], more: str, options: tuple[str, ...], status: int, verdict: str
) -> None:
    readings(folder, values, more)
    found, shown, told = judge(folder, *options)
    assert (found, f"\n{verdict}" in shown) == (status, True), shown + told


def test_a_failed_check_taints_what_was_read(folder: Path) -> None:
    """An instrument that failed its check before use decides nothing that is good."""
    rows = "balloon,limits of,piece,instance,lower limit,upper limit,unit,value,instrument\n"
    rows += "check,zero,,,-0.004,0.004,mm,0.007,outside micrometer 0-25 mm\n"
    rows += "".join(f"1,,{piece},1,,,mm,11.98,outside micrometer 0-25 mm\n" for piece in (1, 2))
    (folder / "r.csv").write_text(rows, encoding="utf-8")
    status, shown, _ = judge(folder)
    assert status == 3
    assert "failed its check at zero: 0.007" in " ".join(shown.split())
    assert "undecided" in shown


def test_every_form_is_written_and_says_the_same(folder: Path) -> None:
    readings(folder, {**GOOD, "2": ["4.21", "4.2", "4.18", "4.31"]})
    files = [f"report.{ending}" for ending in ("docx", "xlsx", "csv", "jsonl", "txt")]
    status, _, told = judge(folder, *(part for name in files for part in ("-o", name)))
    assert status == 3
    assert [line for line in told.splitlines() if line.startswith("written")] == [f"written: {name}" for name in files]
    objects = [json.loads(line) for line in (folder / "report.jsonl").read_text(encoding="utf-8").splitlines()]
    validator = Draft202012Validator(schema("judge"))
    assert [error.message for each in objects for error in validator.iter_errors(each)] == []
    assert objects[0]["judgement"]["standing"] == "reject"
    assert "REJECTED" in (folder / "report.txt").read_text(encoding="utf-8")


# options, what is said
WRONG = [
    (("--guard", "1"), "--guard, --conformance and --binary belong to --rule guarded"),
    (("--rule", "guarded", "--guard", "1", "--conformance", "0.9"), "give one"),
    (("--rule", "guarded", "--conformance", "95"), "above 0.5"),
    (("--process-sd", "0"), "a spread is above 0"),
    (("--process-sd", "0.1", "--process-sd", "1=0.2"), "each names its line"),
    (("--process-sd", "x"), "is not a number"),
    (("--columns", "value"), "is no column map"),
    (("-o", "report.pdf"), "the ending tells the form"),
    (("--summary", "-o", "report.csv"), "the summary alone is written as .docx"),
]


@pytest.mark.parametrize(("options", "said"), WRONG)
def test_a_wrong_option_is_told_in_a_sentence(folder: Path, options: tuple[str, ...], said: str) -> None:
    readings(folder, GOOD)
    status, _, told = judge(folder, *options)
    assert status in (1, 2)
    assert said in " ".join(told.split())


def test_a_known_spread_gives_the_risks_of_the_batch(folder: Path) -> None:
    readings(folder, GOOD)
    status, shown, _ = judge(folder, "--process-sd", "1=0.02")
    assert status == 0
    assert "consumer’s risk" in shown


def test_a_budget_is_shown_and_given_as_data(folder: Path) -> None:
    done = run("budget", "knob.sheet", "1", cwd=folder)
    assert done.returncode == 0, done.stderr
    assert "room     21 ±1 °C" in done.stdout
    assert "maximum permissible error" in done.stdout
    assert "expanded uncertainty U = " in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80
    data = json.loads(run("budget", "knob.sheet", "1", "--json", cwd=folder).stdout)
    resources = [(f"{name}.schema.json", Resource.from_contents(schema(name))) for name in ("judge", "budget")]
    validator = Draft202012Validator(
        {"$ref": "budget.schema.json"},
        registry=Registry().with_resources(resources),
    )
    assert list(validator.iter_errors(data)) == []
    assert data["line"] == "1"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("9",), "the plan has no line '9'; it has 1, 2, 3"),
        (("3",), "line 3 has no budget: reference: nothing to decide"),
        (
            ("1", "--instrument", "digital calliper"),
            "the crib has no instrument 'digital calliper'; near: digital caliper",
        ),
        (("1", "--instrument", "plug gauge 3-50 mm"), "it does not reach it, or shows no value"),
    ],
)
def test_where_there_is_no_budget_the_reason_is_told(folder: Path, arguments: tuple[str, ...], said: str) -> None:
    done = run("budget", "knob.sheet", *arguments, cwd=folder)
    assert done.returncode == 1
    assert said in done.stderr


def test_every_sample_is_judged_with_its_readings_in_the_middle(tmp_path: Path) -> None:
    """From plan to report on what ships: the table that the plan wrote, filled, is judged and accepted."""
    import csv
    from decimal import Decimal

    for sheet in sorted((ROOT / "samples").glob("*.sheet")):
        if sheet.stem == "faulty-saddle":
            continue
        table = tmp_path / f"{sheet.stem}.csv"
        assert run("plan", str(sheet), "--readings", str(table)).returncode == 0
        with table.open(encoding="utf-8-sig", newline="") as file:
            rows = list(csv.DictReader(file))
        for row in rows:
            bounds = [Decimal(row[head]) for head in ("lower limit", "upper limit") if row[head]]
            row["value"] = format(sum(bounds) / len(bounds), "f") if bounds else "accept"
        with table.open("w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, rows[0].keys())
            writer.writeheader()
            writer.writerows(rows)
        done = run("judge", str(sheet), str(table), "--json")
        head = json.loads(done.stdout.splitlines()[0])["judgement"]
        assert head["unreadable"] == [], sheet.stem
        assert done.returncode in (0, 3), done.stderr
        assert head["standing"] in ("accept", "undecided"), (sheet.stem, head["why"])


CRIB = """[[instrument]]
kind = "outside micrometer"
range = [0, 25]
unit = "mm"
resolution = 0.01
mpe = 0.004
serial = "OM-08"
due = 2026-01-31
"""


def test_an_instrument_of_the_shop_s_own_crib_is_known_again(folder: Path) -> None:
    """What `take` wrote of it, with its serial: its failed check taints, its due date and its uncertainty count."""
    (folder / "crib.toml").write_text(CRIB, encoding="utf-8")
    (folder / "one.sheet").write_text("part: Knob\ndrawing: TM-512\n1: Ø12 h9\n", encoding="utf-8")
    own = ("--crib", "crib.toml", "--today", "2026-03-01")
    took = run("take", "one.sheet", *own, cwd=folder, stdin="c\n0.02\nq\n11.98\n")
    assert took.returncode == 0, took.stderr
    done = run("judge", "one.sheet", "one.readings.csv", *own, "--rule", "guarded", cwd=folder)
    shown = " ".join(done.stdout.split())
    assert "\nUNDECIDED" in done.stdout
    assert "outside micrometer 0-25 mm failed its check at zero: 0.02" in shown
    assert "due 2026-01-31" in shown
    assert "not in the crib" not in shown
    assert "accepted 11.9" in shown  # a guard band from its uncertainty


FRAME = """part: Clamp
drawing: TM-513
material: steel
pieces: 3
1: Ø6.6 +0.2/0 THRU |⌖|Ø0.3(M)|A|B|C|
"""


def shown_of(folder: Path, sheet: str, values: dict[str, list[str]], *options: str) -> str:
    """The report, blanks run together, of a sheet whose lines have one place a piece."""
    (folder / "knob.sheet").write_text(sheet, encoding="utf-8")
    rows = [f"{line},{piece},{value}" for line, typed in values.items() for piece, value in enumerate(typed, 1)]
    (folder / "r.csv").write_text("\n".join(["balloon,piece,value", *rows, ""]), encoding="utf-8")
    return " ".join(judge(folder, *options)[1].split())


def test_a_reading_that_its_bonus_accepts_says_so_beside_it(folder: Path) -> None:
    shown = shown_of(folder, FRAME, {"1.1": ["6.7", "6.8", "6.8"], "1.2": ["0.4", "0.501", "0.3"]})
    assert "1/1 0.4 (bonus 0.1), 2/1 0.501" in shown
    assert "(reject, bonus 0.2), 3/1 0.3 " in shown


def test_only_rejected_readings_are_named_as_such(folder: Path) -> None:
    shown = shown_of(folder, FRAME, {"1.1": ["6.7", "6.8", "6.85"]}, "--rule", "guarded")
    said = "1 of 3 readings rejected; readings 3/1 6.85 mm; undecided 2/1"
    assert f"1.1: Ø6.6 +0.2/0 THRU |⌖|Ø0.3(M)|A|B|C|; {said}" in shown


def test_of_many_readings_the_rejected_ones_are_never_left_out(folder: Path) -> None:
    sheet = "part: Knob\ndrawing: TM-512\npieces: 30\n1: 20 ±0.1\n"
    shown = shown_of(folder, sheet, {"1": ["20.1"] * 29 + ["20.2"]}, "--rule", "guarded")
    assert "1 of 30 readings rejected; readings 30/1 20.2 mm; undecided 1/1 20.1" in shown
    assert "greatest 20.2 30/1 20.2 (reject) 1/1 20.1 (undecided)" in shown
    assert "and 18 more" in shown


def test_a_check_that_decides_nothing_is_asked_about(folder: Path) -> None:
    rows = "check,,,abc,digital outside micrometer 0-25 mm,\ncheck,,,0.5 in,other,\n"
    readings(folder, GOOD, rows)
    shown = " ".join(judge(folder)[1].split())
    assert "digital outside micrometer 0-25 mm: its check decides nothing: abc (no reading names it)" in shown
    assert "0.5 in, DOES NOT READ" in shown


def test_a_reading_of_a_reference_size_is_neither_undecided_nor_asked_for(folder: Path) -> None:
    readings(folder, {**GOOD, "3": ["30.1", "29.9"]})
    status, *_ = judge(folder, "-o", "report.csv")
    shown = judge(folder)[1]
    assert "6 accepted, 2 without a verdict (6 of 6 asked for)" in " ".join(shown.split())
    assert "1/1 30.1, 2/1 29.9 " in " ".join(shown.split())
    rows = (folder / "report.csv").read_text(encoding="utf-8-sig").splitlines()
    assert [row.split(",")[13] for row in rows if row.startswith("3,")] == ["no verdict", "no verdict"]
    assert status == 0


def test_a_gauge_s_answer_has_no_unit_and_a_roughness_tells_its_rule(folder: Path) -> None:
    sheet = "part: Knob\ndrawing: TM-512\n1: M8-6H\n2: Ra 0.8\n3: Ra max 0.8\n"
    shown = shown_of(folder, sheet, {"1": ["reject"], "2": ["0.81"], "3": ["0.81"]})
    assert "1 reading rejected; readings 1/1 reject -" in shown
    assert "2: the 16 % rule: at most 16 % of the values measured on one surface may be outside" in shown
    assert "3: the 16 %" not in shown


def test_a_spread_for_no_line_is_refused(folder: Path) -> None:
    readings(folder, GOOD)
    status, _, told = judge(folder, "--process-sd", "7=0.01")
    assert (status, "the plan has no line '7'" in told) == (1, True)


def test_figures_of_a_budget_have_an_end(folder: Path) -> None:
    (folder / "angle.sheet").write_text("part: Wedge\ndrawing: TM-514\n1: 30° ±0°30'\n", encoding="utf-8")
    done = run("budget", "angle.sheet", "1", cwd=folder)
    assert "0.0333°" in done.stdout
    assert "0.03333" not in done.stdout
