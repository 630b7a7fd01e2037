"""The crib: the instruments a shop owns, read from a TOML file.

```
[[instrument]]
kind = "outside micrometer"
range = [25, 50]
unit = "mm"
resolution = 0.01
mpe = {constant = 0.004, per_length = 0.00002}   # or one number; left out: the kind's own figures
owned = 2                                        # this line and those below may be left out, and so may `name`
place = "cabinet B"
serial = "OM-07"
due = 2026-03-31
```

Numbers are exact: typed as numbers or as text (`"1/64"`, and `"5'"` for arc minutes).
"""

from __future__ import annotations

import re
import tomllib
from decimal import Decimal
from functools import cache
from importlib import resources
from pathlib import Path

from sizewright.instruments.entries import CribFault, entry, unknown
from sizewright.instruments.model import Instrument
from sizewright.instruments.shelf import Crib
from sizewright.sheet.files import file_bytes
from sizewright.text.errors import InputError

_DEFAULT = "default.toml"
_TABLES = "instrument"
_LONGEST = 2000
_AT = re.compile(r"(?P<what>.*) \(at (?P<at>.*)\)", re.DOTALL)


class CribError(InputError):
    """A crib that cannot be used; `faults` holds everything wrong with it, in the order of the file."""

    def __init__(self, source: str, faults: tuple[CribFault, ...]) -> None:
        """`source` names the crib in the text."""
        count = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
        super().__init__("\n".join([f"{source}: {count} in the crib", *(f"  {fault}" for fault in faults)]))
        self.source = source
        self.faults = faults


def crib_of(name: str | None) -> Crib:
    """The crib in the file called `name`, or the default one where no file is named.

    Raises:
        CribError: the file reads as TOML but not as a crib; all faults together.
        InputError: the file cannot be opened, or is not TOML.
    """
    return default_crib() if name is None else read_crib(Path(name))


def read_crib(path: Path) -> Crib:
    """The crib in the TOML file `path`.

    Raises:
        CribError: it reads as TOML but not as a crib; all faults together.
        InputError: the file cannot be opened, or is not TOML.
    """
    try:
        text = file_bytes(path).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError(f"{path}: not UTF-8 text at byte {error.start + 1}") from error
    return parse_crib(text, str(path))


def parse_crib(text: str, source: str = "crib") -> Crib:
    """The crib in the TOML text `text`; `source` names it in errors.

    Raises:
        CribError: it reads as TOML but not as a crib; all faults together.
        InputError: it is not TOML.
    """
    document = _document(text, source)
    faults = [CribFault(None, "", key, unknown("key", key, (_TABLES,))) for key in document if key != _TABLES]
    tables = document.get(_TABLES)
    if not isinstance(tables, list) or not tables or not all(isinstance(table, dict) for table in tables):
        faults.append(CribFault(None, "", _TABLES, "one [[instrument]] table, in double brackets, for each instrument"))
        tables = []
    instruments: list[Instrument] = []
    for number, table in enumerate(tables, start=1):
        made, wrong = entry(table, number)
        faults += wrong
        if made is not None:
            instruments.append(made)
    if faults:
        raise CribError(source, tuple(faults))
    return Crib(source, tuple(instruments))


@cache
def default_crib() -> Crib:
    """The crib that ships with the package: a well-kept small shop, metric and inch. Read once."""
    text = (resources.files("sizewright.instruments") / _DEFAULT).read_text(encoding="utf-8")
    return parse_crib(text, "default crib")


def _document(text: str, source: str) -> dict[str, object]:
    longest = max(map(len, text.split("\n")))
    if longest > _LONGEST:  # a key of thousands of parts keeps the reader of TOML busy for hours
        raise InputError(f"{source}: a line of {longest} characters; {_LONGEST} are the most")
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        found = _AT.fullmatch(str(error))
        what, at = (found["what"], f", {found['at']}") if found else (str(error), "")
        at = at.replace("end of document", f"line {text.count(chr(10)) + 1}, at its end")
        raise InputError(f"{source}{at}: not TOML: {what[:1].lower()}{what[1:]}") from error
    except (ValueError, ArithmeticError, RecursionError) as error:
        raise InputError(f"{source}: not TOML that can be used: a number too long, or brackets too deep") from error
