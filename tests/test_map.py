"""The rooms import one way only, as the map in DEVELOPERS.md has them."""

from __future__ import annotations

import ast
import re

from .support_command import ROOT

DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
ROOMS = re.findall(r"^\| `(\w+)` \|", DEVELOPERS, re.MULTILINE)
PACKAGE = ROOT / "src" / "sizewright"


def imported_rooms(source: str) -> set[str]:
    tree = ast.parse(source)
    names = [node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
    names += [alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names]
    return {name.split(".")[1] for name in names if name.startswith("sizewright.")}


def test_the_map_names_every_room() -> None:
    folders = {path.parent.name for path in PACKAGE.glob("*/__init__.py")}
    assert folders == set(ROOMS)


def test_nothing_imports_from_a_room_below_its_own() -> None:
    wrong = [
        (path.relative_to(PACKAGE).as_posix(), room)
        for path in PACKAGE.glob("*/**/*.py")
        for room in imported_rooms(path.read_text(encoding="utf-8"))
        if ROOMS.index(room) > ROOMS.index(path.relative_to(PACKAGE).parts[0])
    ]
    assert wrong == []
