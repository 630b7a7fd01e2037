"""The commands for fits as a user runs them: pictures, classes, keys."""

from __future__ import annotations

from pathlib import Path

import pytest

from ..support_command import run


@pytest.mark.parametrize(("name", "start"), [("fit.svg", b"<?xml"), ("fit.png", b"\x89PNG")])
def test_read_draws_a_picture(tmp_path: Path, name: str, start: bytes) -> None:
    target = tmp_path / name
    done = run("read", "Ø25 H7/g6", "--picture", str(target))
    assert done.returncode == 0, done.stderr
    assert target.read_bytes().startswith(start)
    assert "largest clearance 41 µm" in done.stdout
    assert "plug gauge (ISO system, IT7): go 25.001 to 25.005" in done.stdout


# (arguments, exit status, part of the output)
RUNS = [
    (["class", "25.000", "25.021", "--side", "internal"], 0, "H7    25.000 to 25.021 mm: exactly these limits"),
    (["class", "24.98", "24.993", "--side", "external"], 0, "g6    24.980 to 24.993 mm: exactly these limits"),
    (["class", "25.0", "25.02", "--side", "internal"], 0, "lower limit the same, upper limit 1 µm above"),
    (["class", "24,985", "24,99", "--side", "external", "--measured"], 0, "g6"),
    (["class", "1.0000", "1.0008", "--side", "internal", "--unit", "inch", "--nominal", "1"], 0, "H7"),
    (["class", "25", "--side", "internal"], 1, "two limits are needed"),
    (["class", "5000", "5001", "--side", "internal"], 1, "3150 mm"),
    (["class", "x", "25", "--side", "internal"], 2, "is not a number"),
    (["class", "1e400", "25", "--side", "internal"], 2, "not the size of a part"),
    (["key", "30"], 0, "parallel key 8 x 7 for shafts over 22 up to 30 mm"),
    (["key", "30", "--fit", "close"], 0, "P9"),
    (["key", "1.25", "--unit", "inch"], 0, "square key 0.25 x 0.25 in"),
    (["key", "2"], 1, "DIN 6885-1"),
    (["key", "1.25", "--unit", "inch", "--fit", "close"], 1, "--fit belongs to a metric key"),
    (["key", "30", "--shape", "square"], 1, "--shape belongs to an inch key"),
    (["read", "Ø25 H7", "--picture", "fit.bmp"], 1, ".svg or .png"),
    (["read", "25 ±0.1", "--picture", "fit.svg"], 1, "nothing to draw"),
    (["read", "Ø25 H7", "Ø25 g6", "--picture", "fit.svg"], 1, "one callout"),
]


@pytest.mark.parametrize(("arguments", "status", "said"), RUNS)
def test_commands_answer_or_say_what_is_wrong(tmp_path: Path, arguments: list[str], status: int, said: str) -> None:
    done = run(*arguments, cwd=tmp_path)
    assert (done.returncode, said in done.stdout + done.stderr) == (status, True), done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    assert status == 0 or list(tmp_path.iterdir()) == []
