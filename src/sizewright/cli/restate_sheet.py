"""A whole sheet restated: every line that reads, the others as typed and named."""

from __future__ import annotations

import sys
from pathlib import Path

from sizewright.cli.restate import restated
from sizewright.cli.tell import tell
from sizewright.output.atomic import write_whole
from sizewright.output.safe import visible
from sizewright.output.sheet_text import sheet_text
from sizewright.plan.build import context_of
from sizewright.resolve.context import Manner, Unit
from sizewright.sheet.faults import faults_text
from sizewright.sheet.read import read_sheet
from sizewright.text.errors import CalloutError, InputError


def restate_sheet(path: Path, manner: Manner, unit: Unit, output: Path | None) -> int:
    """Write the sheet in `manner` and `unit` to `output` (None: the terminal); remarks go to standard error.

    Raises:
        InputError: the sheet has faults.
    """
    sheet = read_sheet(path)
    context = context_of(sheet)
    if sheet.faults or context is None:
        tell(faults_text(sheet.source, sheet.faults))
        raise InputError("the sheet has faults: nothing is restated")
    texts, status = [], 0
    for line in sheet.lines:
        try:
            made = restated(line.callout, context, manner, unit)
        except CalloutError as error:
            tell(f"{line.balloon}: not read, kept as typed: {error.message}")
            texts.append(line.callout)
            status = 1
            continue
        texts.append(made.text)
        for remark in made.remarks:
            tell(f"{line.balloon}: {remark}")
    title = {word: entry.value for word, entry in sheet.title.items() if word != "general"}
    if "general" in sheet.title:
        tell("the general tolerances are written out line by line and leave the title block")
    text = sheet_text(title | {"unit": unit, "manner": manner}, zip(sheet.lines, texts, strict=True))
    if output is None:
        print(visible(text) if sys.stdout.isatty() else text, end="")
    else:
        write_whole(output, text.encode())
        tell(f"written: {output}")
    return status
