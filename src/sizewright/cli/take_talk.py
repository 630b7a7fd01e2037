"""What `take` says and asks: on a terminal with its line editing, through a pipe line by line."""

from __future__ import annotations

import contextlib
import sys
import textwrap

from sizewright.output.safe import one_line

_NARROWEST = 40


class Talk:
    """The two ways of a session: `say` and `ask`. Everything said is on its way before the next line is read."""

    def __init__(self) -> None:
        """Says through standard output, asks through standard input."""
        from sizewright.output.terminal import make_console

        self.console = make_console()
        self.interactive = sys.stdin.isatty()
        if self.interactive:
            with contextlib.suppress(ImportError):
                import readline  # noqa: F401 (line editing for `input`)

    def say(self, text: str, style: str = "", indent: str = "", hang: str | None = None) -> None:
        """One paragraph, wrapped; lines after the first begin with `hang`."""
        from rich.text import Text

        width = max(_NARROWEST, self.console.width)
        lines = textwrap.wrap(
            one_line(text), width, initial_indent=indent, subsequent_indent=indent if hang is None else hang,
            break_long_words=False, break_on_hyphens=False,
        )  # fmt: skip
        self.console.print(Text("\n".join(lines), style=style), no_wrap=True, crop=False, overflow="ignore")
        sys.stdout.flush()

    def ask(self, prompt: str) -> str:
        """What is typed after `prompt`.

        Raises:
            EOFError: there is no more input.
        """
        if self.interactive:
            return input(f"{one_line(prompt)}> ")
        self.say(f"{prompt}>")
        line = sys.stdin.readline()
        # A line without its end is one that a dying program did not finish: it is no entry.
        if not line.endswith("\n"):
            if line.strip():
                self.say(f"the input ended within a line, which is not taken: {line.strip()}")
            raise EOFError
        return line
