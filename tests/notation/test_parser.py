"""The parser against Lark's own: the same grammar, the same tree or the same refusal."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lark import Lark, Tree, UnexpectedCharacters, UnexpectedToken

from sizewright.notation import grammar, read, table
from sizewright.notation.characters import first_characters, needed_characters
from sizewright.notation.parser import Parser, Refused
from sizewright.text.fold import fold

CORPUS = Path(__file__).parents[1] / "data" / "callouts.csv"
with CORPUS.open(encoding="utf-8", newline="") as lines:
    CALLOUTS = [row["callout"] for row in csv.DictReader(line for line in lines if not line.startswith("#"))]


LARK = Lark(
    grammar.grammar_text(grammar.CALLOUT_FILES),
    parser="lalr",
    start=list(grammar.CALLOUT_STARTS),
    maybe_placeholders=False,
    g_regex_flags=re.ASCII,
)


class _Trees:
    """A builder that makes of each rule its name and its children."""

    def __getattr__(self, name: str) -> Callable[[list[Any]], object]:
        return lambda children: (name, [_leaf(child) for child in children])


def _leaf(child: Any) -> object:
    token = getattr(child, "type", None)
    return (token, str(child), child.start_pos, child.end_pos) if token else child


def _tree(found: Any) -> object:
    return (str(found.data), [_tree(child) for child in found.children]) if isinstance(found, Tree) else _leaf(found)


OURS = Parser(
    table.kept_table("callout", grammar.grammar_text(grammar.CALLOUT_FILES), grammar.CALLOUT_STARTS), _Trees()
)


def _by_lark(text: str) -> object:
    try:
        return _tree(LARK.parse(text, start="callout"))
    except UnexpectedToken as error:
        at = None if error.token.type == "$END" else error.token.start_pos
        return at, (error.accepts or set()) - {"$END"}
    except UnexpectedCharacters as error:
        return error.pos_in_stream, set(error.allowed)


def _by_ours(text: str) -> object:
    try:
        return OURS.parse(text, start="callout")
    except Refused as refused:
        return refused.at, refused.expected - {"$END"}  # which Lark leaves out of what would read


@pytest.mark.parametrize("callout", CALLOUTS)
def test_a_callout_is_what_lark_makes_of_it(callout: str) -> None:
    text = fold(callout).folded.strip()
    assert _by_ours(text) == _by_lark(text)


@settings(deadline=None)  # Lark compiles its expressions at first use
@given(st.data())
def test_a_callout_with_a_slip_is_what_lark_makes_of_it(data: st.DataObject) -> None:
    callout, other = (data.draw(st.sampled_from(CALLOUTS)) for _ in range(2))
    cut, back = data.draw(st.integers(0, len(callout))), data.draw(st.integers(0, len(other)))
    text = fold(callout[:cut] + data.draw(st.sampled_from(["", " ", "; ", "x", "0"])) + other[back:]).folded.strip()
    assert _by_ours(text) == _by_lark(text)


# expression, what it may begin with (None: anything), in the meaning of Python's `re`
FIRST: list[tuple[str, str | None]] = [
    (r"ab|c", "ac"),
    (r"a?b", "ab"),
    (r"\d+", "0123456789"),
    (r"(?:x ?)?(?=q)[+\-]", "xX+-"),
    (r"(?<=a)(?!b)°", "°"),
    (r"[^a]", None),
    (r"\w", None),
    (r".", None),
    (r"a*", None),
    (r"(?:a|b*)c", "abc"),
]


@pytest.mark.parametrize(("expression", "begins"), FIRST)
def test_the_characters_an_expression_begins_with(expression: str, begins: str | None) -> None:
    found = first_characters(expression, re.ASCII)
    wanted = None if begins is None else {each for one in begins for each in (one.lower(), one.upper())}
    assert found == wanted


@given(st.sampled_from(CALLOUTS), st.data())
def test_a_terminal_is_tried_where_it_matches(callout: str, data: st.DataObject) -> None:
    text = fold(callout).folded
    at = data.draw(st.integers(0, len(text) - 1))
    for terminal in read._parser()._terminals:
        if re.compile(terminal.expression, re.ASCII).match(text, at):
            assert terminal.first is None or text[at] in terminal.first, terminal.name
            assert terminal.needed is None or terminal.needed.intersection(text), terminal.name


# expression, the characters of which a text that it matches holds one (None: none such), as Python's `re` means it
NEEDED: list[tuple[str, str | None]] = [
    (r"\d+ ?(?:mm|in)", "mi"),
    (r"\d+(?: ?mm)?", "0123456789"),
    (r"(?:a|b*)c", "c"),
    (r"a*|b", None),
    (r"[^a]x?", None),
    (r"abc|de", "ad"),
    (r"\d(?=x)(?!y)", "x"),
    (r".*?(?:no){2,}", "n"),
]


@pytest.mark.parametrize(("expression", "needed"), NEEDED)
def test_the_characters_an_expression_needs(expression: str, needed: str | None) -> None:
    found = needed_characters(expression, re.ASCII)
    assert found == (None if needed is None else {each for one in needed for each in (one.lower(), one.upper())})


TINY = 'start: A B\nA: "a"\nB: "b"\n'


class _Tiny:
    def start(self, children: list[str]) -> str:
        return "".join(children)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(table, "cache_folder", lambda: str(tmp_path / "sizewright"))
    return tmp_path / "sizewright"


def _read_tiny(text: str, tiny: str = TINY) -> str:
    read: str = Parser(table.kept_table("tiny", tiny, ("start",)), _Tiny()).parse(text, "start")
    return read


def test_a_table_is_kept_and_used_again(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert _read_tiny("ab") == "ab"
    assert _only(folder).name.startswith("tiny-")
    monkeypatch.setattr(table, "make_table", lambda *_: pytest.fail("made again"))
    assert _read_tiny("ab") == "ab"


def test_a_table_of_another_grammar_is_not_used(folder: Path) -> None:
    assert _read_tiny("ab") == "ab"
    assert _read_tiny("ac", TINY.replace('"b"', '"c"')) == "ac"
    assert len(list(folder.iterdir())) == 2


def test_two_grammars_do_not_take_turns_and_old_tables_go(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for letter in "bcdefg":
        _read_tiny(f"a{letter}", TINY.replace('"b"', f'"{letter}"'))
    assert len(list(folder.iterdir())) == 4
    monkeypatch.setattr(table, "make_table", lambda *_: pytest.fail("made again"))
    for letter in "gfg":
        _read_tiny(f"a{letter}", TINY.replace('"b"', f'"{letter}"'))


def _only(folder: Path) -> Path:
    (path,) = folder.iterdir()
    return path


@pytest.mark.parametrize("damaged", ["", "[", "null\nnull\n", "\x00", "[" * 200_000])
def test_a_damaged_table_is_made_anew(folder: Path, damaged: str) -> None:
    _read_tiny("ab")
    whole = _only(folder).read_text("utf-8")
    _only(folder).write_text(damaged, "utf-8")
    assert _read_tiny("ab") == "ab"
    for other in (whole[: len(whole) - 9], whole.replace('"B"', '"A"'), whole.rstrip("}")):
        _only(folder).write_text(other, "utf-8")
        assert _read_tiny("ab") == "ab"
    assert _only(folder).read_text("utf-8") == whole  # and the same each time


def test_a_folder_that_cannot_be_written_does_no_harm(folder: Path) -> None:
    folder.write_text("a file where the folder would be", "utf-8")
    assert _read_tiny("ab") == "ab"
