"""Where the fuzzing begins: inputs kept in `seeds`, the samples, and the callouts of the tests' own table.

`seeds/TARGET.jsonl` holds one input a line, as a JSON string; a byte that is no UTF-8 is a lone surrogate in it.
"""

from __future__ import annotations

import json
from pathlib import Path

from sizewright.judge.values import _UNITS
from sizewright.notation.words import VOCABULARY

from ..support import callout_rows
from .file_targets import PART, workbook
from .targets import DRAWN, PLAN

HERE = Path(__file__).parent / "seeds"
# What people, and worse, put anywhere.
_TOKENS = (
    "\x00", "\x1b[2J", "\x9b31m", "\u202e", "\ufeff", "\u200b", "\u2028", "\ud800", "\xa0", "\u3000",
    "\r\n", "\n", "\t", "Ø", "⌀", "±", "°", "⌖", "⟂", "⌴", "⌵", "↧", "Ⓜ", "½", "²", "٣", "５", "µ",
    "×", "−", "–", "′", "″", "⁄", "|", "(M)", "9999999999999999999999999999999999999999", "1e9",
    "1e-999", "0x", "1/0", "-0", "0.0", "NaN", "inf", "999999999x ", "100x ", "((((", "=1+1", "@SUM",
    "'=", "https://example.org", "javascript:", "\\", "%n%s", "{0}", "[red]", "ISO 2768-mK", "II 1.0",
    "tightened", "critical", "every 10th", "sampling: ", "general: ", "unit: inch", "temperature: ",
    "pieces: ", "view: ", "1: ", "2 @C3 [major]: ", "; ", "+0.1/-0.2", "H7/g6", "M10x1.5-6H",
    "1/4-20 UNC-2B", "Tr40x7", "G1/2", "R 1/4", "6:1",
)  # fmt: skip
_XML = (
    "<!DOCTYPE a [<!ENTITY b SYSTEM 'file:///etc/passwd'>]>", "&b;", "<c r='A1' t='s'><v>0</v></c>", "t='inlineStr'",
    "<f>1+1</f>", "<is><t>", "r='XFD1048576'", "<mergeCell ref='A1:XFD1048576'/>", "<row r='999999999'>", "1e400",
    "_x000D_", "&#0;", "&#27;", "<![CDATA[", "xl/worksheets/sheet1.xml", "xl/workbook.xml", "numFmtId='14'", "s='1'",
)  # fmt: skip


def seeds(target: str) -> list[bytes]:
    """The inputs that `target` begins with."""
    return kept(target) + _found(target)


def kept(target: str) -> list[bytes]:
    """The inputs kept in the project for `target`."""
    path = HERE / f"{target}.jsonl"
    if not path.is_file():
        return []
    return [json.loads(line).encode("utf-8", "surrogateescape") for line in path.read_text("utf-8").splitlines()]


def as_line(data: bytes) -> str:
    """An input as a line of its file."""
    return json.dumps(data.decode("utf-8", "surrogateescape"))


def tokens(target: str) -> list[bytes]:
    """What is put into inputs of `target`."""
    words = [*_TOKENS]
    if target.startswith(("notation", "restated", "plans")):
        words += sorted(VOCABULARY)
    if target.startswith(("values", "readings")):
        words += sorted(_UNITS)
    if target.startswith("xlsx"):
        words += _XML
    return [word.encode("utf-8", "surrogatepass") for word in words]


def _found(target: str) -> list[bytes]:
    callouts = [row["callout"].encode() for row in callout_rows()]
    sheets = [PLAN.encode(), *(path.read_bytes() for path in sorted(DRAWN.glob("*.sheet")))]
    if target in ("notation", "restated"):
        return [bytes([48 + n % 32]) + callout for n, callout in enumerate(callouts)]
    if target in ("fold", "general"):
        return callouts[::4]
    if target in ("sheet", "sheet_bytes"):
        return sheets
    if target == "plans":
        return [b"1" + callouts[n] + b"\n" + callouts[n + 1] for n in range(0, len(callouts) - 1, 2)] + [
            b"1" + sheet for sheet in sheets
        ]
    if target == "xlsx_bytes":
        return [workbook(data) for data in kept("xlsx")]
    return []


def is_parts(data: bytes) -> bool:
    """Whether `data` names parts of a workbook."""
    return PART in b"\n" + data
