"""Running the command as a user runs it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]


def run(
    *arguments: str, stdin: str | None = "", cwd: Path | None = None, env: dict[str, str] | None = None
) -> subprocess.CompletedProcess[str]:
    """`python -m sizewright ARGUMENTS`, with its output as text."""
    return subprocess.run(
        [sys.executable, "-m", "sizewright", *arguments],
        input=stdin,
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=cwd,
        env={**os.environ, "NO_COLOR": "1", "COLUMNS": "80", **(env or {})},
        check=False,
        timeout=120,
    )
