"""What a command says beside its answer, on standard error: names of files and typed text in it act on no screen."""

from __future__ import annotations

import sys


def tell(text: str) -> None:
    """Say `text`, which may have several lines."""
    from sizewright.output.safe import visible

    print(visible(text), file=sys.stderr)
