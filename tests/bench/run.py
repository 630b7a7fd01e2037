"""What answering costs, beside a yardstick measured in the same run: `python tests/bench/run.py`.

Each figure is the median of several runs, in turn with its yardstick, so that a drift of the machine falls on both; the
noise is shown as the least and the greatest ratio of the runs. Times are processor time (user and system) unless said
otherwise. Nothing here is a test: a figure asserts nothing. Modules are compiled to a folder of this run's own, so that
a setting that forbids to keep compiled modules makes no difference.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import re
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass
from decimal import Decimal
from itertools import chain
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context
from tests.bench.callouts import distinct, sixty_lines, sizes

READ = ["-m", "sizewright", "read", "--json"]
PAIRS = [
    ("resolve a fit, Ø25.1 H7", "Ø{} H7", "resolve a ± size, Ø25.1 ±0.1", "Ø{} ±0.1"),
]


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure: medians of `ours` and `yardstick`, and the least and the greatest ratio of the runs."""

    name: str
    against: str
    unit: str
    ours: float
    yardstick: float
    ratio: float
    least: float
    most: float
    aim: str


def measured(name: str, unit: str, against: str, aim: str, pairs: list[tuple[float, float]]) -> Figure:
    """The figure of pairs (ours, yardstick)."""
    ratios = [ours / yardstick for ours, yardstick in pairs]
    ours, yardstick = (statistics.median(pair[at] for pair in pairs) for at in (0, 1))
    return Figure(name, against, unit, ours, yardstick, statistics.median(ratios), min(ratios), max(ratios), aim)


@dataclass(frozen=True, slots=True)
class Cost:
    """What one process took: milliseconds of processor time and of the clock, and its largest memory in MB."""

    processor: float
    clock: float
    memory: float


# Starts a process and tells what it took. A small one of its own, as a process counts the memory of the one that it was
# forked from among its own.
_LAUNCHER = """
import os, sys, time
cores, arguments = int(sys.argv[1]), sys.argv[2:]
if cores and hasattr(os, "sched_setaffinity"):
    os.sched_setaffinity(0, sorted(os.sched_getaffinity(0))[:cores])
start, pid = time.perf_counter(), os.fork()
if not pid:
    nothing = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nothing, 1), os.dup2(nothing, 2)
    os.execv(sys.executable, [sys.executable, *arguments])
used = os.wait4(pid, 0)[2]
print(used.ru_utime + used.ru_stime, time.perf_counter() - start, used.ru_maxrss)
"""


def cost(arguments: list[str], source: Path | None = None, cores: int = 0) -> Cost:
    """Run Python with `arguments`, its input from a file, on so many cores at most (0: all)."""
    launcher = [sys.executable, "-S", "-c", _LAUNCHER, str(cores), *arguments]
    with (source or Path(os.devnull)).open("rb") as file:
        told = subprocess.run(launcher, stdin=file, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=True)
    processor, clock, memory = map(float, told.stdout.split())
    return Cost(1000 * processor, 1000 * clock, memory / (1024**2 if sys.platform == "darwin" else 1024))


def processor_time(work: Callable[[], object]) -> float:
    """Milliseconds of processor time of `work` in this process."""
    start = time.process_time()
    work()
    return 1000 * (time.process_time() - start)


def of_commands(runs: int, folder: Path) -> Iterator[Figure]:
    """Starting: whole commands against what they must import."""
    sheet = folder / "sixty.sheet"
    sheet.write_text(sixty_lines(), "utf-8")
    for name, ours, against, yardstick, aim in (
        ("read --json, cold start", [*READ, "25 ±0.1"], "import lark", "import lark", "2"),
        (
            "plan of 60 lines, to the terminal",
            ["-m", "sizewright", "plan", str(sheet)],
            "import lark, pint, rich",
            "import lark, pint, rich.table, rich.console",
            "1.5",
        ),
    ):
        cost(ours), cost(["-c", yardstick])
        pairs = [(cost(ours).processor, cost(["-c", yardstick]).processor) for _ in range(runs)]
        yield measured(name, "ms", against, aim, pairs)


def of_streams(runs: int, folder: Path, texts: list[str]) -> Iterator[Figure]:
    """Many callouts: against the grammar's own parser, against another reader of quantities, against each other."""
    command = [*READ, "-"]
    names = ("many", "plain", "hundred", "tenth", "repeated")
    many, plain, hundred, tenth, repeated = (folder / f"{name}.txt" for name in names)
    many.write_text("\n".join(texts) + "\n", "utf-8")
    plain.write_text("\n".join(sizes(len(texts))) + "\n", "utf-8")
    times = range(1, 6)
    hundred.write_text("".join(f"{text}; {i / 10} ±0.1\n" for i in times for text in texts), "utf-8")
    tenth.write_text("".join(f"{text}; 0.6 ±0.1\n" for text in texts[::2]), "utf-8")
    repeated.write_text("".join(f"{texts[i % 1000]}\n" for i in range(len(texts))), "utf-8")
    lark, pint = lark_alone(texts), one_quantity()
    few = min(runs, 3)
    cost(command, many)
    alone, quantity, plainest, memory = [], [], [], []
    for _ in range(few):
        ours = cost(command, many, cores=1)
        alone.append((ours.processor, processor_time(lark)))
        quantity.append((1000 * ours.processor / len(texts), processor_time(pint)))
        plainest.append((1000 * cost(command, plain, cores=1).processor / len(texts), processor_time(pint)))
    yield measured(f"read --json -, {len(texts)} distinct", "ms", "Lark alone, same lines and grammar", "2.5", alone)
    yield measured("the same, one callout", "µs", "Pint's registry, one quantity", "1", quantity)
    yield measured("the same of plain sizes alone, one", "µs", "Pint's registry, one quantity", "1", plainest)
    cores = [(cost(command, many).clock, cost(command, many, cores=1).clock) for _ in range(few)]
    yield measured(f"the same on {os.cpu_count()} cores, by the clock", "ms", "on one core", "", cores)
    pairs = [(cost(command, repeated, 1).processor, cost(command, many, 1).processor) for _ in range(few)]
    yield measured(f"{len(texts)} lines, 1000 distinct", "ms", "all distinct", "", pairs)
    grown = []
    for _ in range(max(1, few - 1)):
        large, small = cost(command, hundred, 1), cost(command, tenth, 1)
        grown.append((large.processor, 10 * small.processor))
        memory.append((large.memory, small.memory))
    yield measured("100,000 lines", "ms", "ten times 10,000 lines", "1", grown)
    yield measured("memory at 100,000 lines (40 MB more at most)", "MB", "at 10,000 lines", "", memory)


def lark_alone(texts: list[str]) -> Callable[[], object]:
    """Parsing the folded texts by Lark itself with the whole grammar, to trees."""
    from lark import Lark, UnexpectedInput

    from sizewright.notation import grammar
    from sizewright.text.fold import fold

    parser = Lark(
        grammar.grammar_text(grammar.CALLOUT_FILES),
        parser="lalr",
        start=list(grammar.CALLOUT_STARTS),
        maybe_placeholders=False,
        g_regex_flags=re.ASCII,
    )
    folded = [fold(text).folded.strip() for text in texts]

    def work() -> None:
        for text in folded:
            try:
                parser.parse(text, start="callout")
            except UnexpectedInput:
                continue

    work()  # its expressions are compiled at first use
    return work


def one_quantity() -> Callable[[], object]:
    """A thousand quantities as text, so that milliseconds are microseconds of one."""
    import pint

    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    registry.Quantity("1 mm")
    texts = [f"{i / 10} mm" for i in range(1000)]
    return lambda: [registry.Quantity(text) for text in texts]


def of_answers(runs: int) -> Iterator[Figure]:
    """In one process: one sort of callout against another, each callout different."""
    for name, ours, against, yardstick in PAIRS:
        pairs = [(processor_time(resolving(ours)), processor_time(resolving(yardstick))) for _ in range(runs)]
        yield measured(name, "ms", against, "", pairs)


def resolving(form: str) -> Callable[[], object]:
    """Answering 400 different callouts of a form."""
    context = Context()
    callouts = [form.format(Decimal(1000 + i) / 10) for i in range(400)]
    answer(form.format(7), context)
    return lambda: [answer(callout, context) for callout in callouts]


def of_reports(runs: int, folder: Path) -> Iterator[Figure]:
    """Writing a long plan, and judging and reporting it, against plain tables of the same cells; the plan is there."""
    from tests.bench.report import AGAINST, PLAN, REPORT, plan_pairs, report_pairs

    yield measured(PLAN, "ms", AGAINST, "1.3", plan_pairs(folder, runs))
    yield measured(REPORT, "ms", AGAINST, "1.5", report_pairs(folder, runs))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--runs", type=int, default=15)
    parser.add_argument("--lines", type=int, default=20_000, help="distinct callouts (most of the time goes into them)")
    parser.add_argument("--json", type=Path, metavar="FILE")
    given = parser.parse_args()
    figures = []
    print(f"{'figure':46}{'ours':>9}{'yardstick':>11}   {'ratio':7}{'(least-most)':15}{'aim':5}against")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        os.environ["PYTHONPYCACHEPREFIX"] = str(folder / "compiled")
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        texts = distinct(given.lines)
        for figure in chain(
            of_commands(given.runs, folder),
            of_answers(given.runs),
            of_reports(given.runs, folder),
            of_streams(given.runs, folder, texts),
        ):
            figures.append(figure)
            noise = f"({figure.least:.2f}-{figure.most:.2f})"
            sizes = f"{figure.ours:9.1f}{figure.yardstick:11.1f} {figure.unit:3}"
            print(f"{figure.name:46}{sizes}{figure.ratio:6.2f} {noise:15}{figure.aim:5}{figure.against}", flush=True)
    if given.json:
        machine = {"python": platform.python_version(), "machine": platform.machine(), "cores": os.cpu_count()}
        found = {"machine": machine, "runs": given.runs, "figures": [asdict(figure) for figure in figures]}
        given.json.write_text(json.dumps(found, indent=1, ensure_ascii=False), "utf-8")


if __name__ == "__main__":
    main()
