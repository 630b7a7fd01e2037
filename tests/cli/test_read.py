"""`sizewright read` as a user runs it."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from ..support import callout_rows
from ..support_command import ROOT, run

SCHEMA = json.loads((ROOT / "src/sizewright/resolve/schemas/answer.schema.json").read_text(encoding="utf-8"))


def answers(text: str) -> list[dict[str, object]]:
    return [json.loads(line) for line in text.splitlines()]


def test_every_known_callout_is_answered_in_the_promised_shape() -> None:
    callouts = [row["callout"] for row in callout_rows() if "\n" not in row["callout"]]
    done = run("read", "--json", "-", stdin="\n".join(callouts) + "\n")
    given = answers(done.stdout)
    assert [answer["callout"] for answer in given] == callouts
    for answer in given:
        jsonschema.validate(answer, SCHEMA)


def test_a_callout_with_line_breaks_may_be_an_argument() -> None:
    done = run("read", "--json", "--unit", "inch", "--", ".250\n.246", "-x")
    first, second = answers(done.stdout)
    assert first["characteristics"][0]["limits"] == [{"of": "size", "lower": "0.246", "upper": "0.250"}]  # type: ignore[index]
    assert second["error"]["column"] == 2  # type: ignore[index]
    assert done.returncode == 1
    jsonschema.validate(second, SCHEMA)


# (arguments, exit status, what standard error says)
WRONG_USE = [
    ([], 2, "COMMAND"),
    (["reed"], 2, "invalid choice"),
    (["read", "--unit", "cm", "25"], 2, "invalid choice"),
    (["read", "--general", "ISO 2768-q", "25"], 2, "--general does not read"),
    (["read", "--crib", "no-such.toml", "25"], 1, "no-such.toml"),
    (["plan"], 2, "SHEET"),
    (["plan", "x.sheet", "--share", "0"], 2, "above 0"),
]


@pytest.mark.parametrize(("arguments", "status", "said"), WRONG_USE)
def test_wrong_use_is_told(arguments: list[str], status: int, said: str) -> None:
    done = run(*arguments)
    assert done.returncode == status
    assert said in done.stderr
    assert "Traceback" not in done.stderr


# Each is one clear sentence at one place, exit status 1.
BAD = [
    "",
    "   ",
    "\x07",
    "25\x00",
    "1e999999",
    "25 ±",
    "25 +0.1/+0.2/",
    "25 +0.1/+0.2",
    "30°75'",
    "Ø",
    "25 ±0.1 ±0.2",
    "=1+1",
    "H7",
    "\x1b[2J",
    "25 ± 0.1; DROP",
    "()",
    "x" * 3000,
    "(" * 500,
    "±" * 500,
    "1/" * 400,
    "25 (" * 200,
]


@pytest.mark.parametrize("callout", BAD)
def test_bad_input_gives_one_clear_error(callout: str) -> None:
    if "\x00" in callout:  # cannot be an argument; a pipe can carry it
        done = run("read", "--json", "-", stdin=callout + "\n")
    else:
        done = run("read", "--json", "--", callout)
    (given,) = answers(done.stdout)
    assert done.returncode == 1
    assert done.stderr == ""
    assert given["characteristics"] == []
    error = given["error"]
    assert isinstance(error, dict)
    assert error["message"]
    assert "\n" not in error["message"]
    assert "\x1b" not in run("read", "--", callout.replace("\x00", "\x01")).stdout


def test_a_million_characters_from_a_pipe() -> None:
    done = run("read", "--json", "-", stdin="25 " * 333_334 + "\n25\n")
    long, short = answers(done.stdout)
    assert "too long" in long["error"]["message"]  # type: ignore[index]
    assert short["error"] is None


def test_bytes_that_are_no_text_do_not_stop_it() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "sizewright", "read", "--json", "-"],
        input=b"\xff\xfe25\n\xef\xbb\xbf25 \xc2\xb10.1\r\n",
        capture_output=True,
        check=False,
    )
    lines = [json.loads(line) for line in done.stdout.splitlines()]
    assert [line["error"] is None for line in lines] == [False, True]
    assert b"Traceback" not in done.stderr


def test_a_closed_pipe_ends_it_quietly() -> None:
    command = f"yes 25 | {sys.executable} -m sizewright read --json - | head -1"
    done = subprocess.run(command, shell=True, capture_output=True, text=True, check=False, timeout=60)
    assert done.stdout.startswith('{"callout": "25"')
    assert done.stderr == ""


def test_the_prompt_answers_helps_and_stops(tmp_path: Path) -> None:
    pty = pytest.importorskip("pty")
    import os

    master, slave = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "sizewright", "read"],
        stdin=slave,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        env={**os.environ, "XDG_CACHE_HOME": str(tmp_path), "TERM": "dumb"},
    )
    os.write(master, "?\n25 ±0.1\n25 ±\n\n".encode())
    output, _ = process.communicate(timeout=60)
    os.close(slave)
    os.close(master)
    text = output.decode()
    assert "Type a callout as the drawing has it" in text
    assert "lower limit   24.9 mm" in text
    assert "NOT READ" in text
    assert process.returncode == 0


def test_it_runs_where_no_cache_can_be_kept(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("not a folder")
    done = run("read", "--json", "25", env={"XDG_CACHE_HOME": str(blocked)})
    assert done.returncode == 0
    assert done.stderr == ""


@pytest.mark.parametrize(("callout", "name"), [("25", "sizes"), ("M10", "callout")])
def test_a_damaged_cache_is_made_anew(tmp_path: Path, callout: str, name: str) -> None:
    env = {"XDG_CACHE_HOME": str(tmp_path)}
    assert run("read", "--json", callout, env=env).returncode == 0
    (table,) = (tmp_path / "sizewright").glob(f"{name}-*.table")
    table.write_bytes(table.read_bytes()[:1000])
    done = run("read", "--json", callout, env=env)
    assert (done.returncode, done.stderr) == (0, "")
    assert len(table.read_bytes()) > 1000
