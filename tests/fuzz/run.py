"""Feed the readers what no person would type: `python -m tests.fuzz.run [TARGET ...] [--runs N] [--work FOLDER]`.

Where `atheris` is installed (`pip install atheris`), it watches which lines an input reaches and goes on from those
that reach new ones; without it, inputs are seeds changed by chance. A broken rule is written to FOLDER/findings, once
for each place, and the run goes on. FOLDER/corpus keeps what reached new lines, for the next run.
"""

from __future__ import annotations

import argparse
import hashlib
import importlib
import json
import pkgutil
import random
import subprocess
import sys
import time
import traceback
from dataclasses import dataclass, field
from pathlib import Path

_EVERY = 2.0


@dataclass
class Tally:
    """What happened to one target."""

    target: str
    work: Path
    runs: int = 0
    begun: float = field(default_factory=time.monotonic)
    found: dict[str, int] = field(default_factory=dict)
    written: float = 0.0

    def take(self, data: bytes, fault: BaseException | None) -> None:
        """Count one input; what it broke is written once."""
        self.runs += 1
        if fault is not None:
            self._find(data, fault)
        if self.runs % 64 == 0 and time.monotonic() - self.written > _EVERY:
            self.write()

    def write(self) -> None:
        """Put the tally where the one who started the run finds it."""
        self.written = time.monotonic()
        seconds = self.written - self.begun
        processor = time.process_time()
        state = {"runs": self.runs, "seconds": round(seconds, 1), "processor": round(processor, 1), "found": self.found}
        (self.work / f"{self.target}.json").write_text(json.dumps(state), "utf-8")

    def _find(self, data: bytes, fault: BaseException) -> None:
        frames = [f for f in traceback.extract_tb(fault.__traceback__) if "checks.py" not in f.filename]
        ours = [f for f in frames if "sizewright" in f.filename or "fuzz" in f.filename] or frames
        place = f"{Path(ours[-1].filename).name}:{ours[-1].lineno}"
        rule = str(fault) if isinstance(fault, AssertionError) else ""
        key = f"{type(fault).__name__} {place} {rule.partition(':')[0]}".strip()
        self.found[key] = self.found.get(key, 0) + 1
        stem = f"{self.target}-{hashlib.sha1(key.encode()).hexdigest()[:8]}"
        kept = self.work / "findings" / f"{stem}.bin"
        if self.found[key] > 1 and kept.is_file() and kept.stat().st_size <= len(data):
            return
        kept.write_bytes(data)
        told = "".join(traceback.format_exception(fault))
        kept.with_suffix(".txt").write_text(f"{key}\n{data!r}\n{told}", "utf-8", "replace")


def fuzz(name: str, runs: int, work: Path, *, blind: bool) -> None:
    """Fuzz one target in this process."""
    if not blind:
        import atheris  # type: ignore[import-not-found,import-untyped,unused-ignore]

        with atheris.instrument_imports(include=["sizewright"]):
            import sizewright

            # All of it, for what a function imports later would not be watched.
            for module in pkgutil.walk_packages(sizewright.__path__, "sizewright."):
                if not module.name.endswith("__main__"):
                    importlib.import_module(module.name)
    from tests.fuzz.all_targets import TARGETS
    from tests.fuzz.checks import in_time
    from tests.fuzz.seeds import seeds, tokens

    target = TARGETS[name]
    (work / "findings").mkdir(parents=True, exist_ok=True)
    tally = Tally(name, work)

    def one(data: bytes) -> None:
        fault = None
        try:
            in_time(target.check, data)
        except Exception as error:
            fault = error
        tally.take(data, fault)
        if tally.runs == runs:
            tally.write()

    if blind:
        from tests.fuzz.mutate import mutants

        made = mutants(seeds(name), tokens(name), target.longest, random.Random(runs))
        for _ in range(runs):
            one(next(made))
        return
    corpus = work / "corpus" / name
    corpus.mkdir(parents=True, exist_ok=True)
    for data in seeds(name):
        (corpus / f"seed-{hashlib.sha1(data).hexdigest()[:12]}").write_bytes(data)
    dictionary = work / f"{name}.dict"
    words = ["".join(f"\\x{byte:02x}" for byte in token) for token in tokens(name)]
    dictionary.write_text("".join(f'"{word}"\n' for word in words), "ascii")
    options = [
        f"-runs={runs}", f"-max_len={target.longest}", f"-dict={dictionary}", "-timeout=30", "-rss_limit_mb=2048",
        f"-artifact_prefix={work / 'findings' / name}-", "-print_final_stats=1",
    ]  # fmt: skip
    atheris.Setup([sys.argv[0], *options, str(corpus)], one)
    atheris.Fuzz()


def main() -> int:
    """Fuzz the targets one after another, each in a process of its own; 1 where something was found."""
    from tests.fuzz.all_targets import TARGETS

    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("targets", nargs="*", metavar="TARGET", help=f"one of {', '.join(TARGETS)} (all)")
    parser.add_argument("--runs", type=int, help="inputs for each target (each has a usual number of its own)")
    parser.add_argument("--work", type=Path, default=Path("fuzz-work"), help="folder for findings and corpus")
    parser.add_argument("--blind", action="store_true", help="do without atheris")
    parser.add_argument("--child", action="store_true", help=argparse.SUPPRESS)
    given = parser.parse_args()
    work = given.work.resolve()
    blind = given.blind or not _watched()
    if given.child:
        fuzz(given.targets[0], given.runs, work, blind=blind)
        return 0
    root = Path(__file__).resolve().parents[2]
    work.mkdir(parents=True, exist_ok=True)
    found = 0
    for name in given.targets or TARGETS:
        runs = given.runs or TARGETS[name].runs
        command = [sys.executable, "-m", "tests.fuzz.run", name, "--child", "--runs", str(runs), "--work", str(work)]
        with (work / f"{name}.log").open("ab") as log:
            ended = subprocess.run(command + ["--blind"] * blind, cwd=root, stdout=log, stderr=log, check=False)
        state = json.loads((work / f"{name}.json").read_text("utf-8"))
        each = state["runs"] / max(state["seconds"], 0.1)
        print(f"{name:<14}{state['runs']:>10} inputs {state['seconds']:>8.0f} s {each:>7.0f}/s", flush=True)
        for key, count in state["found"].items():
            print(f"    {count} x {key}", flush=True)
        if ended.returncode:
            print(f"    ended with {ended.returncode}: see {name}.log", flush=True)
        found += len(state["found"]) + (ended.returncode != 0)
    return 1 if found else 0


def _watched() -> bool:
    from importlib.util import find_spec

    return find_spec("atheris") is not None


if __name__ == "__main__":
    sys.exit(main())
