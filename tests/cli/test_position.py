"""Position from measured coordinates, as a machinist runs the command."""

from __future__ import annotations

import pytest

from ..support_command import run

HOLE = ["--size", "6.72", "--mmc", "6.6", "--lmc", "6.8"]
CALLOUT = "Ø6.6 +0.2/0 THRU |⌖|Ø0.3(M)|A|B|C|"

AT_016 = ["--x", "0.12", "--y", "0.16", "--zone", "0.3"]

# (arguments after `position`, exit status, part of the output). Values: own arithmetic, 2 * sqrt(x² + y²).
RUNS = [
    (["--x", "0.12", "--y", "-0.05", "--zone", "0.3"], 0, "position Ø0.26 mm: twice the distance of (0.12, -0.05)"),
    (["--x", "0.12", "--y", "-0.05", "--zone", "0.3"], 0, "ACCEPT: 0.04 to spare"),
    (["--x", "0.12", "--y", "0.16", "--zone", "0.3"], 0, "REJECT: 0.10 too far"),
    ([*AT_016, "--at", "mmc"], 0, "UNDECIDED: outside the stated zone"),
    ([*AT_016, "--at", "mmc", *HOLE], 0, "zone Ø0.42 mm: 0.3 and a bonus of 0.12"),
    ([*AT_016, "--at", "mmc", *HOLE], 0, "ACCEPT: 0.02 to spare"),
    ([*AT_016, "--at", "lmc", *HOLE], 0, "zone Ø0.38 mm: 0.3 and a bonus of 0.08"),
    ([*AT_016, *HOLE], 0, "REJECT: 0.10 too far"),
    (["--x", "0", "--y", "0", "--zone", "0", "--at", "mmc", "--size", "6.5", *HOLE[2:]], 0, "REJECT: the size 6.5"),
    (["--x", "0.1", "--y", "0.1", "--zone", "0.28284"], 0, "REJECT"),
    (["--x", "0.1", "--y", "0.1", "--zone", "0.28285"], 0, "position Ø0.28285 mm"),  # 0.282842...
    (["--x", "0.02", "--y", "0.03", "--z", "0.06", "--zone", "0.2"], 0, "position SØ0.14 mm"),
    (["--x", "0.12", "--y", "0.16", "--size", "6.72", "--callout", CALLOUT], 0, "ACCEPT: 0.02 to spare"),
    (["--x", ".003", "--y", ".004", "--unit", "inch", "--callout", "|⌖|Ø.010|A|"], 0, "ACCEPT: 0.000 to spare"),
    (["--x", ".1", "--y", "0", "--size", "10", "--callout", "Ø10 ±.1 |⌖|Ø.1(M)|A|"], 1, "add --side internal"),
    (
        ["--x", ".1", "--y", "0", "--size", "10", "--side", "external", "--callout", "Ø10 ±.1 |⌖|Ø.1(M)|A|"],
        0,
        "ACCEPT",
    ),
    (["--x", ".1", "--y", "0", "--size", "6.7", "--callout", "|⌖|Ø.1(M)|A|"], 1, "a bonus needs both limits"),
    (["--x", ".1", "--y", ".1", "--callout", "|⌖|Ø.1|A|B(M)|"], 0, "UNDECIDED: 0.1829 too far, unless the shift"),
    (["--x", "0", "--y", "0", "--size", "6.9", "--callout", "Ø6.6 +0.2/0 |⌖|Ø0.3|A|"], 0, "REJECT: the size 6.9"),
    (["--x", ".1", "--y", "0", "--callout", "|⌖|0.1|A|"], 1, "Ø before it for an axis"),
    (["--x", ".1", "--y", "0", "--callout", "|⌖|Ø0.1|A|A|"], 1, "datum A twice"),
    (["--x", ".1", "--y", "0", "--callout", "Ø10"], 1, "0 frames of position"),
    (["--x", ".1", "--y", "0", "--zone", ".3", "--mmc", "6"], 1, "go together"),
    (["--x", ".1", "--y", "0"], 2, "required"),
    (["--x", "1e9999", "--y", "0", "--zone", ".3"], 2, "not the size of a part"),
    (["--x", "a", "--y", "0", "--zone", ".3"], 2, "not a number"),
    (["--x", ".1", "--y", "0", "--zone", "-1"], 2, "argument"),
]  # fmt: skip


@pytest.mark.parametrize(("arguments", "status", "said"), RUNS, ids=[" ".join(row[0]) for row in RUNS])
def test_a_command(arguments: list[str], status: int, said: str) -> None:
    done = run("position", *arguments)
    assert done.returncode == status, done.stderr
    assert said in done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    assert all(len(line) <= 80 for line in done.stdout.splitlines())
