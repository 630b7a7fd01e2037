"""The process is killed while it takes readings: what it said is stored is stored, and the file goes on."""

from __future__ import annotations

import random
import re
import threading
import time
from pathlib import Path

import pytest

from sizewright.instruments.crib import default_crib
from sizewright.judge.reading_files import read_readings
from sizewright.plan.build import build_plan
from sizewright.sheet.read import read_sheet

from .test_take import Live

RUNS = 24
SHEET = "unit: mm\npieces: 9000\n1: 25 ±5\n"


def test_no_acknowledged_reading_is_lost_whenever_the_process_is_killed(tmp_path: Path) -> None:
    sheet = tmp_path / "bar.sheet"
    sheet.write_text(SHEET, encoding="utf-8")
    log = tmp_path / "bar.readings.csv"
    plan = build_plan(read_sheet(sheet), default_crib())
    chance = random.Random(6)
    kept: list[str] = []  # what the file held after each kill
    numbers = iter(range(1, 1_000_000))
    for round_ in range(RUNS):
        live = Live(sheet)
        if round_ % 8 == 7:
            time.sleep(chance.uniform(0, 0.8))  # while it starts: perhaps before the file is there or held
            fed: list[str] = []
        else:
            live.until(b"1: piece")
            fed = [f"{22 + next(numbers) / 10_000:.4f}" for _ in range(300)]
            feeder = threading.Thread(target=_feed, args=(live, fed))
            feeder.start()
            live.until(b"stored")
            time.sleep(chance.uniform(0, 0.12))
        live.process.kill()
        said = live.end()
        acknowledged = re.findall(r"stored (2\d\.\d{4}) mm: accept", said)
        assert acknowledged == fed[: len(acknowledged)]
        if not log.exists():
            assert not kept
            assert not acknowledged
            continue
        found = read_readings(log, plan)
        typed = [each.typed for each in found.readings]
        now = len(typed) - len(kept)
        assert typed[: len(kept)] == kept, "what an earlier run stored is there no more"
        assert typed[len(kept) :] == fed[:now], "what was stored is not what was typed"
        assert len(acknowledged) <= now <= len(acknowledged) + 1
        assert found.unreadable == ()
        assert [each.piece for each in found.readings] == list(range(1, len(typed) + 1)), (
            "it does not go on where it was"
        )
        kept = typed
    assert len(kept) > RUNS


def _feed(live: Live, values: list[str]) -> None:
    try:
        live.type("".join(f"{value}\n" for value in values))
    except (BrokenPipeError, ValueError):
        return


@pytest.mark.parametrize("keep", [0, 1, 7, 20, 44])
def test_a_row_that_a_dying_machine_cut_off_is_measured_again(tmp_path: Path, keep: int) -> None:
    sheet = tmp_path / "bar.sheet"
    sheet.write_text(SHEET, encoding="utf-8")
    log = tmp_path / "bar.readings.csv"
    live = Live(sheet)
    live.type("22.1\n22.2\nq\n")
    live.process.wait(timeout=60)
    live.end()
    data = log.read_bytes()
    last = data.rstrip(b"\n").rpartition(b"\n")[2]
    log.write_bytes(data[: -len(last) - 1] + last[:keep])
    live = Live(sheet)
    live.type("22.3\n22.4\nq\n")
    said = live.end()
    assert "1: piece 2 of 9000, mm>" in said
    plan = build_plan(read_sheet(sheet), default_crib())
    found = read_readings(log, plan)
    assert [(each.piece, each.typed) for each in found.readings] == [(1, "22.1"), (2, "22.3"), (3, "22.4")]
    assert len(found.unreadable) == (1 if keep else 0)
    if keep:
        assert "cannot be used: the row is not finished" in said
