"""Tasks from plans, the things behind a crib, and the times."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from sizewright.instruments.crib import default_crib, parse_crib
from sizewright.instruments.kinds import kinds
from sizewright.instruments.shelf import Crib
from sizewright.plan.build import build_plan
from sizewright.sheet.read import read_text
from sizewright.text.errors import InputError
from sizewright.training.tasks import Part, work_of
from sizewright.training.times import Times, parse_times, times_of, usual_times
from sizewright.training.timetable import Work
from sizewright.training.tools import tools_of

SHEET = "part: Cap\ndrawing: TM-1\npieces: 2\n1: 25 ±0.1\n2: (30)\n3: 4x Ø6.6 ±0.1 THRU\n4: 30° ±1°\n5: R3 ±0.5\n"


def entry(kind: str, lower: str, upper: str, unit: str = "mm", resolution: str = "0.01", more: str = "") -> str:
    return (
        f'[[instrument]]\nkind = "{kind}"\nrange = [{lower}, {upper}]\nunit = "{unit}"\n'
        f"resolution = {resolution}\n{more}\n"
    )


CALIPER, MICROMETER = entry("digital caliper", "0", "150"), entry("outside micrometer", "0", "25")

# (what it is, crib, owned by name); what is held apart and what counts as one follows from the words in front
CRIBS = [
    ("one", CALIPER, {"digital caliper 0-150 mm": 1}),
    ("owned 3", entry("digital caliper", "0", "150", more="owned = 3"), {"digital caliper 0-150 mm": 3}),
    ("two entries alike", CALIPER + CALIPER, {"digital caliper 0-150 mm": 2}),
    ("two serials", "".join(entry("digital caliper", "0", "150", more=f'serial = "{s}"') for s in "AB"),
     {"digital caliper 0-150 mm": 2}),
    ("one serial twice", "".join(entry("digital caliper", "0", "150", more='serial = "A"') for _ in "AA"),
     {"digital caliper 0-150 mm": 1}),
    ("other range", CALIPER + entry("digital caliper", "0", "300"),
     {"digital caliper 0-150 mm": 1, "digital caliper 0-300 mm": 1}),
    ("finer, so no stand-in", MICROMETER + entry("outside micrometer", "0", "25", resolution="0.001"),
     {"outside micrometer 0-25 mm": 1, "outside micrometer 0-25 mm (2)": 1}),
    ("a digital one in both units is one", CALIPER + entry("digital caliper", "0", "6", "inch", "0.0005"),
     {"digital caliper 0-150 mm": 1}),
    ("unless serials tell otherwise", entry("digital caliper", "0", "150", more='serial = "A"')
     + entry("digital caliper", "0", "6", "inch", "0.0005", 'serial = "B"'),
     {"digital caliper 0-150 mm": 1, "digital caliper 0-6 inch": 1}),
    ("a sleeve has one scale", MICROMETER + entry("outside micrometer", "0", "1", "inch", "0.001"),
     {"outside micrometer 0-25 mm": 1, "outside micrometer 0-1 inch": 1}),
    ("a comparator's stage and screen are one", entry("optical comparator", "0", "100", resolution="0.001")
     + entry("optical comparator", "0", "360", "deg", '''"1'"''', '''mpe = "2'"'''),
     {"optical comparator 0-100 mm": 1}),
]  # fmt: skip


@pytest.mark.parametrize(("text", "owned"), [case[1:] for case in CRIBS], ids=[case[0] for case in CRIBS])
def test_how_many_hands_can_hold_it(text: str, owned: dict[str, int]) -> None:
    tools = tools_of(parse_crib(text), usual_times())
    assert {tool.name: tool.owned for tool in tools.values()} == owned


def test_every_entry_of_the_default_crib_is_a_tool() -> None:
    crib = default_crib()
    tools = tools_of(crib, usual_times())
    assert set(tools) == set(crib.instruments)
    assert tools[crib.instruments[0]].owned == 1


SMALL = parse_crib(CALIPER + entry("bevel protractor", "0", "360", "deg", '''"5'"''', '''mpe = "5'"'''))


def made(
    text: str = SHEET, crib: Crib = SMALL, *, shared: bool = False, copies: int | None = None
) -> tuple[Work, tuple[Part, ...]]:
    plan = build_plan(read_text(text, Path("cap.sheet")), crib)
    return work_of([plan], crib, ["Ada"], usual_times(), shared=shared, copies=copies)


def test_a_task_is_a_part_with_an_instrument() -> None:
    work, (part,) = made()
    assert [(task.mark, task.lines, task.tools, task.readings) for task in work.tasks] == [
        ("A1", ("1", "3"), ("digital caliper 0-150 mm",), 5),
        ("A2", ("4",), ("bevel protractor 0-360 deg",), 1),
    ]
    assert part == Part("A", "Cap, TM-1", 2, ("2",), ("5",), ())
    assert work.copies == {"Cap, TM-1": 2}


def test_shared_work_is_a_task_for_each_piece() -> None:
    assert [task.mark for task in made(shared=True)[0].tasks] == ["A1/1", "A1/2", "A2/1", "A2/2"]
    assert [(task.mark, task.piece) for task in made(shared=True, copies=1)[0].tasks][:2] == [("A1", 1), ("A2", 1)]


def test_where_the_side_is_not_told_all_its_instruments_are_held() -> None:
    work, _ = made("unit: inch\n1: 1.2500 RC4\n", default_crib())
    (task,) = work.tasks
    assert len(task.tools) > 1
    assert set(task.tools) <= set(work.owned)


def test_lines_without_a_task_are_told() -> None:
    crib = parse_crib(CALIPER)
    plan = build_plan(read_text("1: (30)\n2: 30° ±1°\n3: 25 THUR\n4: 25 ±0.1\n", Path("cap.sheet")), crib)
    work, (part,) = work_of([plan], crib, ["Ada"], usual_times())
    assert (part.idle, part.unserved, part.unread) == (("1",), ("2",), ("3",))
    assert [task.lines for task in work.tasks] == [("4",)]
    assert part.name == "cap"


def test_parts_of_one_name_are_told_apart_and_letters_go_on() -> None:
    plan = build_plan(read_text(SHEET, Path("cap.sheet")), default_crib())
    _, parts = work_of([plan] * 28, default_crib(), ["Ada"], usual_times())
    assert [part.name for part in parts][:2] == ["Cap, TM-1", "Cap, TM-1 (2)"]
    assert [part.letter for part in parts][25:] == ["Z", "AA", "AB"]


def test_every_kind_has_a_time() -> None:
    assert set(usual_times()) == set(kinds())


@pytest.mark.parametrize(
    ("lines", "readings", "minutes"),
    [(1, 1, 4), (2, 1, 5), (1, 2, 4), (1, 3, 5)],  # 2 + lines x 1 + readings x 0.5, up to the next whole minute
)
def test_minutes_of_a_task(lines: int, readings: int, minutes: int) -> None:
    assert Times(Decimal(2), Decimal(1), Decimal("0.5")).minutes(lines, readings) == minutes
    assert Times(Decimal(0), Decimal(0), Decimal(0)).minutes(lines, readings) == 1


def test_a_file_replaces_the_kinds_it_names(tmp_path: Path) -> None:
    path = tmp_path / "times.csv"
    path.write_text("# ours\nkind,prepare,line,reading\n\nDigital Caliper,9,1,0.25\n", encoding="utf-8")
    times = times_of(path)
    assert times["digital caliper"] == Times(Decimal(9), Decimal(1), Decimal("0.25"), all_units=True)
    assert times["steel rule"] == usual_times()["steel rule"]


# (text of the file, what is said)
BAD_TIMES = [
    ("", "no column kind"),
    ("kind,prepare,line\n", "no column reading"),
    (
        "# ours\nkind,prepare,line,reading\ndigital calliper,1,1,1\n",
        "line 3: no instrument kind 'digital calliper'; near: ",
    ),
    ("kind,prepare,line,reading\nsteel rule,1,soon,1\n", "line 2, line: 'soon' is no number of minutes"),
    ("kind,prepare,line,reading\nsteel rule,1,1\n", "line 2, reading: '' is no number"),
    ("kind,prepare,line,reading\nsteel rule,-1,1,1\n", "line 2, prepare: '-1'"),
    ("kind,prepare,line,reading\nsteel rule,1,1,NaN\n", "'NaN'"),
    ("kind,prepare,line,reading\nsteel rule,1,1,1\nsteel rule,1,1,1\n", "line 3: steel rule stands there twice"),
    ("kind,prepare,line,reading,all_units\nsteel rule,1,1,1,maybe\n", "'maybe' is neither yes nor no"),
]


@pytest.mark.parametrize(("text", "said"), BAD_TIMES)
def test_a_bad_table_of_times_is_told_at_its_line(text: str, said: str) -> None:
    with pytest.raises(InputError) as raised:
        parse_times(text, "times.csv")
    assert str(raised.value).startswith("times.csv")
    assert said in str(raised.value)
