"""Names, sheets, cribs and readings made to act on the screen; streams that are full or closed; other locales."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import unicodedata
from pathlib import Path

import pytest

from ..support_command import ROOT, run

# A colour, a cleared screen in eight bits, a link, a turned direction, a bell, a line that paints over another.
ACTING = "\x1b[31m\x9b2J\x1b]8;;https://example.org\x07\u202e\x08"
NAME = ACTING.replace("/", "")  # of a file
SHEET = f"""\
part: Cap{ACTING}
drawing: {ACTING}
unit: mm
pieces: 2
material: un{ACTING}obtanium
remark: {ACTING}
view: front{ACTING}
1 @C3 [major]: 25 ±0.1  ; seat{ACTING}
2: Ø6 H7
"""
FAULTY = f"""\
unit: m{ACTING}m
pieces: {ACTING}
wor{ACTING}d: x
1: 25 ±{ACTING}
1: 2{ACTING}5
sampling: {ACTING}
general: ISO {ACTING}
"""
READINGS = (
    "balloon,piece,instance,value,instrument,by,note\n"
    f"1,SN{ACTING},1,25.01,mic{ACTING} #7{ACTING},AW{ACTING},n{ACTING}\n"
    f"1,SM{ACTING},1,2x{ACTING},,,\n"
    f"9{ACTING},1,1,25,,,\n"
)
CRIB = """\
[[instrument]]
kind = "digital caliper"
name = "caliper {0}"
range = [0, 150]
unit = "mm"
resolution = 0.01
place = "shelf {0}"
serial = "{0}"
""".format("".join(f"\\u{ord(char):04x}" for char in ACTING))
BAD_CRIB = CRIB.replace('kind = "digital caliper"', '"ki\\u001b[2Jnd" = "digit\\u001b[2Jal"')


def quiet(done: subprocess.CompletedProcess[str]) -> subprocess.CompletedProcess[str]:
    """The same, once it is sure that nothing in it acts."""
    for text in (done.stdout, done.stderr):
        acting = {char for char in text if unicodedata.category(char) in ("Cc", "Cf", "Cs", "Zl", "Zp")} - {"\n"}
        assert not acting, text
    assert "Traceback" not in done.stderr
    return done


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "a.sheet").write_text(SHEET, "utf-8")
    (tmp_path / "faulty.sheet").write_text(FAULTY, "utf-8")
    (tmp_path / "r.csv").write_text(READINGS, "utf-8")
    (tmp_path / "c.toml").write_text(CRIB, "utf-8")
    (tmp_path / "bad.toml").write_text(BAD_CRIB, "utf-8")
    (tmp_path / "broken.toml").write_text(f"a{ACTING} =", "utf-8")
    (tmp_path / "no.csv").write_text(f"a{ACTING},b\n1,2\n", "utf-8")
    return tmp_path


# (arguments, exit status)
RUNS = [
    (["plan", "a.sheet"], 0),
    (["plan", "a.sheet", "--crib", "c.toml"], 0),
    (["plan", "a.sheet", "--crib", "bad.toml"], 1),
    (["plan", "a.sheet", "--crib", "broken.toml"], 1),
    (["plan", "a.sheet", "--json", "--crib", "c.toml"], 0),
    (["plan", "faulty.sheet"], 1),
    (["plan", "faulty.sheet", "--keep-going"], 1),
    (["plan", "faulty.sheet", "--keep-going", "--json"], 1),
    (["plan", "a.sheet", "--sampling", f"II {ACTING}"], 2),
    (["plan", "a.sheet", "--lot", ACTING], 2),
    (["plan", f"no{NAME}.sheet"], 1),
    (["plan", f"no{NAME}.docx"], 1),
    (["plan", "a.sheet", "-o", f"x{NAME}.csv"], 0),
    (["plan", "a.sheet", "-o", f"x{NAME}.pdf"], 1),
    (["plan", "a.sheet", "-o", f"no{NAME}/x.csv"], 1),
    (["plan", "a.sheet", "--readings", f"x{NAME}.csv"], 0),
    (["plan", "a.sheet", f"--{ACTING}"], 2),
    (["plan", "a.sheet", "b.sheet", ACTING], 2),
    (["plan", "a.sheet", "--order", ACTING], 2),
    (["judge", "a.sheet", "r.csv", "--crib", "c.toml"], 3),
    (["judge", "a.sheet", "r.csv", "--json"], 3),
    (["judge", "a.sheet", "no.csv"], 1),
    (["judge", "a.sheet", "r.csv", "--columns", f"value={ACTING}"], 1),
    (["judge", "a.sheet", "r.csv", "--process-sd", f"1{ACTING}"], 1),
    (["budget", "a.sheet", "1", "--crib", "c.toml"], 0),
    (["budget", "a.sheet", ACTING], 1),
    (["budget", "a.sheet", "1", "--instrument", ACTING], 1),
    (["restate", "--unit", "inch", f"25{ACTING}"], 1),
    (["restate", "--unit", "inch", "faulty.sheet"], 1),
    (["read", f"25{ACTING}", f"{ACTING}\n25"], 1),
    (["read", "--json", f"25{ACTING}"], 1),
    (["read", "--general", ACTING, "25"], 2),
    (["read", "--picture", f"{NAME}.svg", "Ø25 H7"], 0),
    (["read", "--crib", ACTING, "25"], 1),
    (["class", ACTING, "25"], 2),
    (["position", "--x", "0", "--y", "0", "--callout", ACTING], 1),
    (["take", "a.sheet", "--by", ACTING, "-o", f"t{NAME}.csv"], 0),
    (["cards", "--crib", "c.toml"], 0),
    (["cards", "--crib", "c.toml", "--json"], 0),
    (["cards", "--crib", "c.toml", "--kind", ACTING], 1),
    (["worksheet", "a.sheet", "-o", f"w{NAME}.docx"], 0),
    (["mark", "a.sheet", "r.csv"], 1),
    (["rotation", "a.sheet", "--names", f"Jo{ACTING},Al"], 0),
    (["rotation", "a.sheet", "--names", f"Jo{ACTING},Al", "--json"], 0),
    (["rotation", "faulty.sheet"], 1),
    (["scales", "--kind", ACTING, "--key"], 1),
    (["class", "1e999999999", "25", "--side", "internal"], 2),
    (["class", "0e999999999", "25", "--side", "internal"], 2),
    (["position", "--x=-1e999999999", "--y", "0", "--zone", "1"], 2),
    ([ACTING], 2),
]


@pytest.mark.parametrize(("arguments", "status"), RUNS, ids=[f"{n}-{row[0][0][:8]!r}" for n, row in enumerate(RUNS)])
def test_nothing_typed_acts_on_the_screen(folder: Path, arguments: list[str], status: int) -> None:
    done = quiet(run(*arguments, cwd=folder, stdin="25.01\n"))
    assert done.returncode == status, done.stderr


def test_json_has_the_text_exactly() -> None:
    typed = f"25{ACTING}"
    given = json.loads(quiet(run("read", "--json", typed)).stdout)
    assert given["callout"] == typed


def test_every_command_says_what_it_says_beside_its_answer_in_one_way() -> None:
    for path in sorted((ROOT / "src" / "sizewright" / "cli").glob("*.py")):
        assert path.name == "tell.py" or "file=sys.stderr" not in path.read_text("utf-8"), path.name


# ---- streams ---------------------------------------------------------------------------------------------------------

ANSWERS = [["read", "25"], ["read", "--json", "25"], ["plan", "a.sheet"], ["plan", "a.sheet", "--json"],
           ["judge", "a.sheet", "r.csv"], ["class", "25", "25.1", "--side", "internal"], ["notation"]]  # fmt: skip


def shell(command: str, arguments: list[str], cwd: Path) -> subprocess.CompletedProcess[str]:
    """The command with a redirection, as a shell does it."""
    return subprocess.run(
        ["sh", "-c", f'"$0" -m sizewright "$@" {command}', sys.executable, *arguments],
        capture_output=True, text=True, encoding="utf-8", cwd=cwd, check=False, timeout=120, stdin=subprocess.DEVNULL,
    )  # fmt: skip


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
@pytest.mark.parametrize("arguments", ANSWERS, ids=" ".join)
def test_a_full_disk_behind_the_output_is_one_sentence(folder: Path, arguments: list[str]) -> None:
    done = shell("> /dev/full", arguments, folder)
    assert done.returncode == 1
    told = done.stderr.splitlines()
    assert told[-1].startswith("sizewright: the output cannot be written: ")
    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr


@pytest.mark.skipif(os.name != "posix", reason="a POSIX shell closes streams")
@pytest.mark.parametrize("closed", [">&-", "<&-", ">&- 2>&- <&-"])
@pytest.mark.parametrize("arguments", [*ANSWERS, ["read"]], ids=" ".join)
def test_a_closed_stream_ends_nothing(folder: Path, arguments: list[str], closed: str) -> None:
    usual = run(*arguments, cwd=folder)
    done = shell(closed, arguments, folder)
    assert done.returncode == usual.returncode
    assert done.stderr in ("", usual.stderr)
    assert done.stdout == ("" if ">" in closed else usual.stdout)


@pytest.mark.skipif(os.name != "posix", reason="a POSIX shell closes streams")
def test_a_failure_with_its_stream_closed_says_nothing_elsewhere(folder: Path) -> None:
    done = shell("2>&-", ["plan", "none.sheet"], folder)
    assert (done.returncode, done.stdout) == (1, "")


@pytest.mark.skipif(os.name != "posix", reason="head is a POSIX command")
@pytest.mark.parametrize("arguments", ANSWERS, ids=" ".join)
def test_a_reader_that_goes_away_hears_no_complaint(folder: Path, arguments: list[str]) -> None:
    done = shell("| true", arguments, folder)
    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr


# ---- locales ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("locale", ["C", "POSIX", "de_DE.UTF-8", "none.such"])
@pytest.mark.parametrize(
    "arguments",
    [
        ["read", "--json", "Ø25,5 ±0.1"],
        ["plan", "g.sheet"],
        ["judge", "g.sheet", "g.csv"],
        ["plan", "g.sheet", "--json"],
    ],
    ids=" ".join,
)
def test_the_locale_changes_nothing(tmp_path: Path, arguments: list[str], locale: str) -> None:
    (tmp_path / "g.sheet").write_text("part: Träger\n1: Ø25,5 ±0,1\n", "utf-8")
    (tmp_path / "g.csv").write_text("balloon;value;by\n1;25,53;Jörg\n", "utf-8")
    usual = run(*arguments, cwd=tmp_path)
    done = run(*arguments, cwd=tmp_path, env={"LC_ALL": locale, "LANG": locale})
    assert "25.5" in usual.stdout
    assert (done.stdout, done.returncode) == (usual.stdout, usual.returncode)


def test_a_sheet_from_anywhere_gives_the_same_plan(tmp_path: Path) -> None:
    text = "part: Träger\n1: Ø25 ±0.1\n   R0.5 MAX\n2: 30° ±1°\n"
    forms = [text.encode(), text.encode("utf-8-sig"), text.replace("\n", "\r\n").encode("utf-16"),
             text.replace("\n", "\r\n").encode("cp1252"), text.replace("\n", "\r").encode()]  # fmt: skip
    made = []
    for data in forms:
        (tmp_path / "g.sheet").write_bytes(data)
        done = run("plan", "g.sheet", "--json", cwd=tmp_path)
        assert done.returncode == 0
        made.append(done.stdout)
    assert made == [made[0]] * len(forms)


def test_callouts_from_a_pipe_in_another_encoding_are_refused_one_by_one() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "sizewright", "read", "--json", "-"],
        input="25 ±0.1\r\n30\r\n".encode("utf-16"), capture_output=True, check=False,
    )  # fmt: skip
    given = [json.loads(line) for line in done.stdout.splitlines()]
    assert all(each["error"] for each in given)
    assert done.stderr == b""
