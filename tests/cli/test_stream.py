"""Many callouts from standard input: the same bytes by one process or several, and an end that leaves none behind."""

from __future__ import annotations

import multiprocessing
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from sizewright.cli import stream
from sizewright.cli.stream import Say, tell

PARTS = ["25 ±0.1", "4x Ø6.6 THRU", "Ø25 H7/g6", "M10x1.5-6g", "12 q 5", "", "Ra 1.6", "⌖ Ø0.2 A"]
COMMAND = [sys.executable, "-m", "sizewright", "read", "--json", "-"]
ONLY_HERE = pytest.mark.skipif(sys.platform == "win32", reason="sends signals to a group of processes")


def lines(count: int) -> str:
    """That many lines, most of them different."""
    return "".join(f"{PARTS[i % 8]}; {i / 10} ±0.1\n" if PARTS[i % 8] else "\n" for i in range(count))


@pytest.fixture(scope="module")
def large(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("stream") / "callouts.txt"
    path.write_text(lines(3000), "utf-8")
    return path


def test_a_file_and_a_pipe_give_the_same_bytes(large: Path) -> None:
    with large.open("rb") as file:
        by_file = subprocess.run(COMMAND, stdin=file, capture_output=True, check=False, timeout=120)
    by_pipe = subprocess.run(COMMAND, input=large.read_bytes(), capture_output=True, check=False, timeout=120)
    assert by_file.stdout == by_pipe.stdout
    assert (by_file.returncode, by_pipe.returncode, by_file.stderr) == (1, 1, b"")
    assert by_file.stdout.count(b"\n") == sum(1 for line in lines(3000).splitlines() if line)


def test_who_types_into_a_pipe_gets_each_answer_at_once() -> None:
    with subprocess.Popen(COMMAND, stdin=subprocess.PIPE, stdout=subprocess.PIPE, bufsize=0) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        for callout in (b"25 +0.1/0", b"M6"):
            process.stdin.write(callout + b"\n")
            assert callout in process.stdout.readline()
        process.stdin.close()
    assert process.returncode == 0


# ---- what one or several processes are told to do in the tests below


def shouting(mark: str) -> Say:
    return lambda callout: (f"{callout}{mark}\n", callout == "7")


def dying(mark: str) -> Say:
    """Dies wherever it is not the first process."""

    def say(callout: str) -> tuple[str, bool]:
        if multiprocessing.parent_process() is not None and callout == "900":
            os._exit(3)
        return shouting(mark)(callout)

    return say


def told(make: Callable[..., Say], count: int, processes: int) -> tuple[str, bool]:
    found = list(tell(map(str, range(count)), make, ("!",), processes))
    return "".join(text for text, _ in found), any(failed for _, failed in found)


@pytest.mark.parametrize("count", [0, 1, 199, 200, 201, 5000])
def test_several_processes_keep_the_order(count: int) -> None:
    assert told(shouting, count, 3) == told(shouting, count, 1) == ("".join(f"{i}!\n" for i in range(count)), count > 7)


def test_what_a_process_leaves_undone_is_done_here() -> None:
    assert told(dying, 2000, 2) == told(shouting, 2000, 1)


def test_a_system_without_processes_to_give_does_no_harm(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise OSError("no semaphores")

    monkeypatch.setattr("concurrent.futures.ProcessPoolExecutor", refuse)
    assert told(shouting, 300, 4) == told(shouting, 300, 1)


def test_no_more_is_read_ahead_than_is_under_way() -> None:
    read = 0

    def counted() -> Iterator[str]:
        nonlocal read
        for read in range(100_000):
            yield str(read)

    answers = tell(counted(), shouting, ("!",), 2)
    next(answers)
    answers.close()
    assert read < 2 * stream._AHEAD * stream._CHUNK + 2 * stream._CHUNK


@pytest.mark.parametrize("method", multiprocessing.get_all_start_methods())
def test_any_way_of_starting_a_process_will_do(method: str, large: Path) -> None:
    program = (
        "import multiprocessing, sys\n"
        "from sizewright.cli import main, stream\n"
        "if __name__ == '__main__':\n"
        f"    multiprocessing.set_start_method({method!r})\n"
        "    stream._cores = lambda: 2\n"
        "    sys.exit(main.main(['read', '--json', '-']))\n"
    )
    script = large.with_name(f"{method}.py")
    script.write_text(program, "utf-8")
    with large.open("rb") as file:
        done = subprocess.run([sys.executable, str(script)], stdin=file, capture_output=True, check=False, timeout=120)
    assert (done.returncode, done.stderr) == (1, b"")
    assert done.stdout.count(b"\n") == sum(1 for line in lines(3000).splitlines() if line)


def started(large: Path, tmp_path: Path) -> subprocess.Popen[bytes]:
    """The command at work on far more than it can do soon, in a group of its own, after its first answers."""
    longer = tmp_path / "long.txt"
    longer.write_text(large.read_text("utf-8") * 40, "utf-8")
    with longer.open("rb") as file:
        process = subprocess.Popen(
            COMMAND, stdin=file, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True
        )
    assert process.stdout is not None
    assert process.stdout.readline().startswith(b"{")
    return process


def gone(group: int) -> bool:
    """Whether no process of a group is left, soon."""
    for _ in range(100):
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.1)
    return False


@ONLY_HERE
def test_ctrl_c_ends_them_all(large: Path, tmp_path: Path) -> None:
    process = started(large, tmp_path)
    os.killpg(process.pid, signal.SIGINT)
    _, said = process.communicate(timeout=60)
    assert (process.returncode, said) == (130, b"sizewright: stopped\n")
    assert gone(process.pid)


@ONLY_HERE
@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGKILL])
def test_none_outlives_the_one_that_writes(number: int, large: Path, tmp_path: Path) -> None:
    process = started(large, tmp_path)
    os.kill(process.pid, number)
    process.communicate(timeout=60)
    assert process.returncode == -number
    assert gone(process.pid)


@ONLY_HERE
def test_a_closed_pipe_ends_them_all(large: Path, tmp_path: Path) -> None:
    process = started(large, tmp_path)
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.close()
    with process.stderr:
        assert (process.wait(timeout=60), process.stderr.read()) == (1, b"")
    assert gone(process.pid)
