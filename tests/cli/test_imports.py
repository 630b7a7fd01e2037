"""What reading a callout may import: start-up stays lean, a heavy library shows here first."""

from __future__ import annotations

import subprocess
import sys

ALLOWED = {
    "": {"__main__"},
    "cli": {"main", "read", "context", "tell"},
    "notation": {
        "amounts", "assemble", "build", "designations", "doubtful", "fits", "forms", "general", "geometry_mark",
        "grammar", "holes", "kinds", "measures", "model", "model_base", "model_surfaces", "neighbours", "pairs",
        "parser", "parsing", "pieces", "read", "regroup", "surfaces", "table", "threads", "tokens", "words",
    },
    "resolve": {"answer", "characteristic", "context", "scope", "sizes"},
    "text": {"caret", "errors", "fold", "json_lines", "numbers"},
}  # fmt: skip

PROGRAM = """
import sys
sys.argv = ["sizewright", "read", "--json", "25 ±0.1"]
from sizewright.cli.main import main
main()
print(" ".join(sorted(sys.modules)), file=sys.stderr)
"""


def test_reading_in_its_own_unit_loads_no_heavy_library() -> None:
    subprocess.run([sys.executable, "-c", PROGRAM], capture_output=True, check=True)  # the table may have to be made
    done = subprocess.run([sys.executable, "-c", PROGRAM], capture_output=True, text=True, check=True, encoding="utf-8")
    loaded = set(done.stderr.split())
    packages = {f"sizewright.{package}".rstrip(".") for package in ALLOWED}
    allowed = packages | {f"sizewright.{package}.{name}" for package, names in ALLOWED.items() for name in names}
    assert {name for name in loaded if name.partition(".")[0] == "sizewright"} <= allowed
    heavy = {"lark", "pint", "rich", "docx", "openpyxl", "lxml", "numpy", "csv", "difflib", "pathlib", "tomllib"}
    assert loaded & heavy == set()
