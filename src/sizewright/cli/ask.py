"""The prompt of `sizewright read`: a callout at a time, with history and help."""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from pathlib import Path

from sizewright.notation.table import cache_folder
from sizewright.resolve.answer import answer
from sizewright.resolve.characteristic import Answer
from sizewright.resolve.context import Context

_HELP = """\
Type a callout as the drawing has it, then Enter. Some that read:
  25 ±0.1        Ø17 +0.2/0 THRU      24.9-25.1         R0.5 MAX
  4x Ø6.6        (84)   [50]          2 x 45°           30° ±0°30'
  1-1/2          25.4 [1.000]         5x 20 (=100)      12 SQ
An empty line or end of input stops; the arrow keys bring earlier callouts back."""
_HISTORY = 500


def ask(context: Context, show: Callable[[Answer], None]) -> int:
    """Ask for callouts until an empty line or the end of input."""
    history = _start_history()
    print(f"unit {context.unit}, manner {context.manner}; ? helps, an empty line stops")
    try:
        while True:
            typed = input("callout> ")
            if not typed.strip():
                return 0
            if typed.strip() in ("?", "help"):
                print(_HELP)
                continue
            show(answer(typed, context))
    except EOFError:
        print()
        return 0
    finally:
        _keep_history(history)


def _start_history() -> Path | None:
    try:
        import readline
    except ImportError:  # not on every system; the prompt works without
        return None
    path = Path(cache_folder()) / "callouts.history"
    readline.set_history_length(_HISTORY)
    with contextlib.suppress(OSError):
        readline.read_history_file(path)
    return path


def _keep_history(path: Path | None) -> None:
    if path is None:
        return
    import readline

    with contextlib.suppress(OSError):
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        readline.write_history_file(path)
