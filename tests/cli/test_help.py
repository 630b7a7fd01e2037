"""The examples in the help are commands that read."""

from __future__ import annotations

import argparse
import shlex

import pytest

from sizewright.cli.main import COMMANDS, make_parser


def _epilogs(parser: argparse.ArgumentParser) -> list[str]:
    (commands,) = (action for action in parser._actions if isinstance(action, argparse._SubParsersAction))
    return [each.epilog or "" for each in (parser, *commands.choices.values())]


def _examples() -> list[str]:
    """What stands after `sizewright`, up to the blanks before an explanation or to a file that is read from."""
    lines = "\n".join(_epilogs(make_parser())).splitlines()
    typed = [line.strip().removeprefix("sizewright ") for line in lines if line.startswith("  sizewright ")]
    return [line.split("   ")[0].split(" <")[0] for line in typed]


@pytest.mark.parametrize("example", _examples())
def test_an_example_of_the_help_reads(example: str, capsys: pytest.CaptureFixture[str]) -> None:
    words = shlex.split(example)
    assert make_parser(words).parse_args(words).command == words[0], capsys.readouterr().err


def test_every_command_has_an_example() -> None:
    assert {example.split()[0] for example in _examples()} >= set(COMMANDS)


# typed before the command, what is blamed: what stands behind it is as good as ever
MISPLACED = [
    (["--json", "read", "25"], "unrecognized arguments: --json"),
    (["-x", "plan", "a", "-o", "y.docx"], "unrecognized arguments: -x"),
    (["--nope", "plan"], "the following arguments are required: SHEET"),
]


@pytest.mark.parametrize(("words", "said"), MISPLACED)
def test_an_option_before_the_command_is_blamed_alone(
    words: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit):
        make_parser(words).parse_args(words)
    assert capsys.readouterr().err.rstrip().endswith(said)
