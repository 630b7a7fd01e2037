"""What reading costs, beside a yardstick measured in the same run: `python tests/bench/run.py [--runs N]`.

Each figure is the median processor time (user and system) of whole processes, and the ratio to its yardstick. The
machine's noise is the spread between the fastest and the slowest run. Nothing here is a test: a figure asserts nothing.
"""

from __future__ import annotations

import argparse
import json
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import asdict, dataclass
from decimal import Decimal
from pathlib import Path

from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context

ROOT = Path(__file__).resolve().parents[2]
SAMPLE = ROOT / "samples" / "worm-housing.sheet"


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure: `ours` and `yardstick` in milliseconds of processor time, medians."""

    name: str
    against: str
    ours: float
    yardstick: float
    spread: float

    @property
    def ratio(self) -> float:
        return self.ours / self.yardstick


COMMANDS = [
    (
        "read --json, cold start",
        ["-m", "sizewright", "read", "--json", "25 ±0.1"],
        "import lark",
        ["-c", "import lark"],
    ),
    (
        "plan of a sheet to the terminal",
        ["-m", "sizewright", "plan", str(SAMPLE)],
        "import lark, pint, rich.table",
        ["-c", "import lark, pint, rich.table, rich.console"],
    ),
]


def processor_time(arguments: list[str]) -> float:
    """Milliseconds of processor time of one run of Python."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, *arguments], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return 1000 * (after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime)


def measure(name: str, ours: list[str], against: str, yardstick: list[str], runs: int) -> Figure:
    """Run both in turn, so that a drift of the machine falls on both."""
    processor_time(ours)
    processor_time(yardstick)
    pairs = [(processor_time(ours), processor_time(yardstick)) for _ in range(runs)]
    own, other = [pair[0] for pair in pairs], [pair[1] for pair in pairs]
    spread = (max(other) - min(other)) / statistics.median(other)
    return Figure(name, against, statistics.median(own), statistics.median(other), spread)


# In one process: answers to callouts of the one sort against answers to the other, each callout different.
RESOLVING = [("resolve a fit, Ø25.1 H7", "Ø{} H7", "resolve a ± size, Ø25.1 ±0.1", "Ø{} ±0.1")]


def resolve(form: str, count: int) -> float:
    """Milliseconds of processor time to answer `count` different callouts."""
    context = Context()
    callouts = [form.format(Decimal(1000 + i) / 10) for i in range(count)]
    answer(form.format(7), context)
    start = time.process_time()
    for callout in callouts:
        answer(callout, context)
    return 1000 * (time.process_time() - start)


def compare(name: str, ours: str, against: str, yardstick: str, runs: int) -> Figure:
    """Answer both sorts in turn."""
    pairs = [(resolve(ours, 400), resolve(yardstick, 400)) for _ in range(runs)]
    own, other = [pair[0] for pair in pairs], [pair[1] for pair in pairs]
    spread = (max(other) - min(other)) / statistics.median(other)
    return Figure(name, against, statistics.median(own), statistics.median(other), spread)


def report(runs: int) -> Figure:
    """Judging a long plan and writing its report, against a plain table of the same cells; the plan is there before."""
    sys.path.insert(0, str(ROOT))  # its readings come from the tests' own factory
    from tests.bench.report import AGAINST, NAME, report_figures

    with tempfile.TemporaryDirectory() as folder:
        return Figure(NAME, AGAINST, *report_figures(Path(folder), runs))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=15)
    parser.add_argument("--json", type=Path)
    given = parser.parse_args()
    figures = [measure(name, ours, against, yard, given.runs) for name, ours, against, yard in COMMANDS]
    figures += [compare(name, ours, against, yard, given.runs) for name, ours, against, yard in RESOLVING]
    figures.append(report(given.runs))
    print(f"{'figure':34}{'ours ms':>9}{'yardstick ms':>14}{'ratio':>7}  against (spread of its runs)")
    for figure in figures:
        print(
            f"{figure.name:34}{figure.ours:9.1f}{figure.yardstick:14.1f}{figure.ratio:7.2f}"
            f"  {figure.against} ({figure.spread:.0%})"
        )
    if given.json:
        given.json.write_text(json.dumps([asdict(f) | {"ratio": f.ratio} for f in figures], indent=1))


if __name__ == "__main__":
    main()
