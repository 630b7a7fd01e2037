from __future__ import annotations

import csv
import os
import pty
import select
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from ..judge.sheets import SMALL
from ..support_command import run


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    path = tmp_path / "carrier.sheet"
    path.write_text(SMALL, encoding="utf-8")
    return path


def take(sheet: Path, typed: str, *options: str) -> subprocess.CompletedProcess[str]:
    done = run("take", str(sheet), *options, stdin=typed, cwd=sheet.parent)
    assert "Traceback" not in done.stderr
    return done


def rows(sheet: Path, name: str = "carrier.readings.csv") -> list[dict[str, str]]:
    with (sheet.parent / name).open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def taken(sheet: Path) -> list[tuple[str, str, str, str]]:
    return [(row["balloon"], row["piece"], row["instance"], row["value"]) for row in rows(sheet)]


def test_a_session_goes_balloon_by_balloon_and_judges_at_once(sheet: Path) -> None:
    done = take(sheet, "25.012\n+30\n6,61\n6.3\n", "--by", "AW")
    assert done.returncode == 0, done.stderr
    assert "balloon 1   Ø25 H7" in done.stdout
    assert "25.000 to 25.021 mm; aim 25.0105" in done.stdout
    assert "with: dial bore gauge 18-35 mm" in done.stdout
    assert "stored 25.012 mm: accept, 0.009 mm to spare" in done.stdout
    assert "stored 25.03 mm: REJECT, 0.009 mm over the upper limit" in done.stdout
    assert "stored 6.3 mm: REJECT, 0.1 mm under the lower limit" in done.stdout
    assert "2: piece 1 of 2, place 2 of 2, mm>" in done.stdout
    assert taken(sheet) == [
        ("1", "1", "1", "25.012"), ("1", "2", "1", "25.03"), ("2", "1", "1", "6,61"), ("2", "1", "2", "6.3")
    ]  # fmt: skip
    first, second = rows(sheet)[:2]
    assert (first["lower limit"], first["upper limit"], first["unit"], first["by"]) == ("25.000", "25.021", "mm", "AW")
    assert first["instrument"] == "dial bore gauge 18-35 mm"
    assert second["note"] == "typed +30 µm from 25 mm"
    assert max(len(line) for line in done.stdout.splitlines() if str(sheet.parent) not in line) <= 80


def test_it_goes_on_where_it_stopped_and_says_what_is_there(sheet: Path) -> None:
    take(sheet, "25.01\nn\n6.6\nq\n")
    done = take(sheet, "25.02\n")
    assert "2 of them are there; the last one: balloon 2, piece 1, 6.6" in " ".join(done.stdout.split())
    assert "3 of 30 readings" in done.stdout
    assert taken(sheet)[-1] == ("1", "2", "1", "25.02")


def test_undo_appends_and_deletes_nothing(sheet: Path) -> None:
    done = take(sheet, "25.01\n25.02\nu\n25.015\nu\nu\nu\nq\n")
    assert "undone: balloon 1, piece 2, 25.02; it stays in the file" in " ".join(done.stdout.split())
    assert "there is nothing to undo" in done.stdout
    assert [(row["value"], row["note"]) for row in rows(sheet)] == [
        ("25.01", ""), ("25.02", ""), ("", "undone"), ("25.015", ""), ("", "undone"), ("", "undone")
    ]  # fmt: skip
    assert "0 of 30" in done.stdout
    take(sheet, "25.003\nq\n")
    done = take(sheet, "u\nq\n")  # also what an earlier session took
    assert "undone: balloon 1, piece 1, 25.003" in done.stdout


def test_a_corrected_reading_keeps_the_first(sheet: Path) -> None:
    done = take(sheet, "25.01\nb\n25.02\ng 9 2\n12.01\n?\nq\n")
    assert "here stands 25.01; a new value replaces it" in done.stdout
    assert taken(sheet) == [("1", "1", "1", "25.01"), ("1", "1", "1", "25.02"), ("9", "2", "1", "12.01")]


def test_an_impossible_value_is_asked_about_and_kept_if_confirmed(sheet: Path) -> None:
    done = take(sheet, "250.1\nn\n2.501\n25.01\n2.501\ny\n")
    assert "250.1: ten times the size? 25.01 would be within" in done.stdout
    assert "keep it? y, n or a new value" in done.stdout
    assert [row["value"] for row in rows(sheet)] == ["25.01", "2.501"]
    assert rows(sheet)[1]["note"].startswith("asked and kept: 2.501: a tenth of the size?")


def test_a_doubt_without_an_answer_stores_nothing(sheet: Path) -> None:
    take(sheet, "250.1\n")
    assert rows(sheet) == []


def test_a_gauge_is_asked_for_its_answer(sheet: Path) -> None:
    done = take(sheet, "g 5\n5.4\na\nno-go\n")
    assert "5: piece 1 of 2, accept or reject>" in done.stdout
    assert "it is gauged, so accept or reject" in done.stdout
    assert [row["value"] for row in rows(sheet)] == ["accept", "reject"]


def test_an_entry_that_does_not_read_is_asked_for_again(sheet: Path) -> None:
    done = take(sheet, "1.2.3\nabc\n\n25.01\n")
    assert done.stdout.count("not taken:") == 2
    assert taken(sheet) == [("1", "1", "1", "25.01")]


def test_an_escape_sequence_does_not_reach_the_terminal(sheet: Path) -> None:
    done = take(sheet, "\x1b[2J\ni \x1b[31mred\n25.01\n")
    assert "\x1b" not in done.stdout
    assert "\x1b" not in take(sheet, "q\n").stdout


def test_the_instrument_in_use_is_recorded(sheet: Path) -> None:
    done = take(sheet, "i micrometer\ni my old gauge #7\n25.01\ni\n25.02\n")
    assert "several are meant by micrometer" in done.stdout
    assert "not in the crib; it is recorded as typed" in done.stdout
    assert [row["instrument"] for row in rows(sheet)] == ["my old gauge #7", "dial bore gauge 18-35 mm"]


def test_a_check_before_use_is_recorded_and_judged(sheet: Path) -> None:
    done = take(sheet, "g 9\nc\n0\n1\nq\n12.01\n")
    assert "check of outside micrometer 0-25 mm before use" in done.stdout
    assert "FAILED: readings taken with it will be marked" in " ".join(done.stdout.split())
    zero, second, reading = rows(sheet)
    assert (zero["balloon"], zero["limits of"], zero["value"]) == ("check", "zero", "0")
    assert float(zero["lower limit"]) < 0 < float(zero["upper limit"])
    assert (second["balloon"], reading["balloon"]) == ("check", "9")


@pytest.mark.parametrize(
    ("options", "begins"),
    [
        (("--order", "piece"), ["1/1", "2/1"]),
        (("--order", "balloon"), ["1/1", "1/2"]),
        (("--order", "instrument"), ["1/1", "1/2"]),
        (("--pieces", "2"), ["1/2", "2/2"]),
    ],
)
def test_the_order_and_the_pieces_can_be_chosen(sheet: Path, options: tuple[str, ...], begins: list[str]) -> None:
    take(sheet, "25.01\n25.01\n6.6\n" if "1/2" in begins[1:] else "25.01\n6.6\n", *options)
    assert [f"{row['balloon']}/{row['piece']}" for row in rows(sheet)][:2] == begins


def test_grouped_by_instrument_no_instrument_comes_twice(sheet: Path) -> None:
    done = take(sheet, "n\n" * 30, "--order", "instrument")
    said = [
        line.partition("with: ")[2].partition(",")[0].partition(";")[0]
        for line in done.stdout.splitlines()
        if "with: " in line
    ]
    seen = list(dict.fromkeys(said))
    assert [tool for at, tool in enumerate(said) if not at or said[at - 1] != tool] == seen


def test_with_deviation_bare_numbers_are_deviations(sheet: Path) -> None:
    take(sheet, "12\n=25.003\n", "--deviation")
    assert [row["value"] for row in rows(sheet)] == ["25.012", "25.003"]


def test_all_readings_there_ends_it(sheet: Path) -> None:
    sheet.write_text("unit: mm\n1: 25 ±0.1\n", encoding="utf-8")
    done = take(sheet, "25.01\n\nnever read\n")
    assert "All readings are there." in done.stdout
    assert "1 of 1 reading" in done.stdout
    assert done.returncode == 0


def test_skipped_places_are_named_at_the_end(sheet: Path) -> None:
    sheet.write_text("unit: mm\npieces: 3\n1: 25 ±0.1\n", encoding="utf-8")
    done = take(sheet, "n\n25.01\nn\n\n25.02\nq\n")
    assert "2 readings missing: balloon 1, piece 1, balloon 1, piece 3" in done.stdout
    assert taken(sheet)[-1] == ("1", "1", "1", "25.02")


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (("-o", "r.xlsx"), "ends in .csv"),
        (("-o", "no/where/r.csv"), "no folder"),
        (("--pieces", "9"), "nothing is to be measured of the pieces asked for"),
        (("--crib", "missing.toml"), "there is no file missing.toml"),
    ],
)
def test_what_cannot_be_used_is_one_sentence(sheet: Path, options: tuple[str, ...], words: str) -> None:
    done = take(sheet, "25.01\n", *options)
    assert done.returncode == 1
    assert words in done.stderr
    assert done.stderr.count("\n") == 1


def test_more_readings_than_anybody_takes_are_refused(sheet: Path) -> None:
    sheet.write_text("pieces: 1000000\n1: 5000x Ø5 ±0.1\n", encoding="utf-8")
    done = take(sheet, "")
    assert done.returncode == 1
    assert "more than 1000000 readings to take; --pieces takes some of them" in done.stderr
    assert take(sheet, "", "--pieces", "3").returncode == 0


def test_a_sheet_with_faults_is_taken_only_when_asked(sheet: Path) -> None:
    sheet.write_text(SMALL + "13: 25 THUR\n", encoding="utf-8")
    assert take(sheet, "25.01\n").returncode == 1
    assert not sheet.with_name("carrier.readings.csv").exists()
    assert take(sheet, "25.01\n", "--keep-going").returncode == 0
    assert len(rows(sheet)) == 1


def test_a_line_without_its_end_is_not_taken_and_said(sheet: Path) -> None:
    done = take(sheet, "25.01\n25.0")
    assert "the input ended within a line, which is not taken: 25.0" in done.stdout
    assert len(rows(sheet)) == 1


def test_on_a_terminal_it_asks_behind_a_prompt(sheet: Path) -> None:
    terminal, inside = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "sizewright", "take", str(sheet), "--by", "AW"],
        stdin=inside, stdout=inside, stderr=inside, env={**os.environ, "COLUMNS": "80", "TERM": "xterm"},
    )  # fmt: skip
    os.close(inside)
    said = b""

    def until(words: bytes) -> None:
        nonlocal said
        end = time.monotonic() + 60
        while words not in said and time.monotonic() < end:
            ready, _, _ = select.select([terminal], [], [], 0.5)
            try:
                said += os.read(terminal, 65536) if ready else b""
            except OSError:  # the other end is closed
                break
        assert words in said, said.decode()

    until(b"1: piece 1 of 2, mm> ")
    os.write(terminal, b"25.012\n")
    until(b"stored 25.012 mm: accept")
    until(b"1: piece 2 of 2, mm> ")
    os.write(terminal, b"q\n")
    until(b"29 missing")
    assert process.wait(timeout=60) == 0
    os.close(terminal)
    assert taken(sheet) == [("1", "1", "1", "25.012")]


class Live:
    """A session that runs, with its pipes."""

    def __init__(self, sheet: Path, *options: str) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-m", "sizewright", "take", str(sheet), *options],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
            env={**os.environ, "NO_COLOR": "1", "COLUMNS": "80"},
        )  # fmt: skip
        self.said = b""

    def until(self, words: bytes, seconds: float = 60) -> None:
        assert self.process.stdout is not None
        end = time.monotonic() + seconds
        while words not in self.said and time.monotonic() < end:
            ready, _, _ = select.select([self.process.stdout], [], [], 0.5)
            data = os.read(self.process.stdout.fileno(), 65536) if ready else b""
            if ready and not data:
                break
            self.said += data
        assert words in self.said, self.said.decode()

    def type(self, text: str) -> None:
        assert self.process.stdin is not None
        self.process.stdin.write(text.encode())
        self.process.stdin.flush()

    def end(self) -> str:
        rest, wrong = self.process.communicate(timeout=60)
        assert b"Traceback" not in wrong, wrong.decode()
        return (self.said + rest).decode()


@pytest.mark.parametrize(("number", "status"), [(signal.SIGTERM, 143), (signal.SIGINT, 130)])
def test_a_signal_ends_it_in_peace(sheet: Path, number: int, status: int) -> None:
    live = Live(sheet)
    live.type("25.01\n")
    live.until(b"stored 25.01")
    live.process.send_signal(number)
    assert "1 of 30 readings" in live.end()
    assert live.process.returncode == status
    assert len(rows(sheet)) == 1


def test_two_at_once_on_one_file_the_second_is_told(sheet: Path) -> None:
    live = Live(sheet)
    live.until(b"1: piece 1")
    second = take(sheet, "25.02\n")
    assert second.returncode == 1
    assert second.stderr.count("\n") == 1
    assert "being taken into" in second.stderr
    live.type("25.01\n")
    live.until(b"stored 25.01")
    live.type("q\n")
    live.end()
    assert taken(sheet) == [("1", "1", "1", "25.01")]
    assert take(sheet, "25.02\n").returncode == 0


def test_the_lock_goes_with_the_process_that_dies(sheet: Path) -> None:
    live = Live(sheet)
    live.until(b"1: piece 1")
    live.process.kill()
    live.end()
    assert take(sheet, "25.02\n").returncode == 0
    assert taken(sheet) == [("1", "1", "1", "25.02")]


def test_a_file_that_may_grow_no_more_is_told_and_nothing_is_claimed(sheet: Path) -> None:
    """The system's own limit on a file's size cuts a row in the middle, as a full disk does."""
    sheet.write_text("unit: mm\npieces: 30\n1: 25 ±0.1\n", encoding="utf-8")
    limited = "import os, resource, sys; resource.setrlimit(resource.RLIMIT_FSIZE, (700, 700)); "
    limited += "os.execv(sys.executable, [sys.executable, '-m', 'sizewright', *sys.argv[1:]])"
    done = subprocess.run(
        [sys.executable, "-B", "-c", limited, "take", str(sheet), "--by", "AW"],
        input="25.01\n" * 20, capture_output=True, encoding="utf-8", check=False, timeout=60,
        env={**os.environ, "NO_COLOR": "1", "PYTHONDONTWRITEBYTECODE": "1"},
    )  # fmt: skip
    assert done.returncode == 1
    assert "Traceback" not in done.stderr
    assert "not stored: no space left" in done.stdout
    stored = done.stdout.count("stored 25.01 mm")
    assert stored >= 2
    assert len(rows(sheet)) == stored
    assert take(sheet, "25.003\n").returncode == 0
    assert len(rows(sheet)) == stored + 1


FRAME = "part: Clamp\ndrawing: TM-513\n1: Ø6.6 +0.2/0 THRU |⌖|Ø0.3(M)|A|B|C|\n"


# typed, options, what the instant verdict says: the same as judging does
WIDENED = [
    ("6.7\n0.4\n", (), "stored 0.4 mm: accept, just at the limit, with a bonus of 0.1 mm at size 6.7 mm"),
    ("6.7\n0.41\n", (), "stored 0.41 mm: REJECT, 0.01 mm over the upper limit, with a bonus of 0.1 mm at size 6.7 mm"),
    ("g 1.2\n0.4\n", (), "beyond the zone as drawn; (M) may widen it by 0.2 mm at most: the size, balloon 1.1, is not"),
    ("g 1.2\n0.51\n", (), "stored 0.51 mm: REJECT, 0.01 mm over the upper limit with the whole bonus of 0.2 mm"),
    ("g 1.2\n0.3\n", (), "stored 0.3 mm: accept, just at the limit"),
    ("6.7\n0.4\n", ("--order", "instrument"), "accept, just at the limit, with a bonus of 0.1 mm at size 6.7 mm"),
    ("6.7 mm\n0.016 in\n", (), "REJECT, 0.0064 mm over the upper limit, with a bonus of 0.1 mm at size 6.7 mm"),
]


@pytest.mark.parametrize(("typed", "options", "said"), WIDENED)
def test_a_zone_that_its_size_widens_is_judged_with_the_bonus(
    sheet: Path, typed: str, options: tuple[str, ...], said: str
) -> None:
    sheet.write_text(FRAME, encoding="utf-8")
    assert said in " ".join(take(sheet, typed, *options).stdout.split())
