"""Workbooks made to be read at somebody's cost: entities, sizes that lie, parts that are elsewhere."""

from __future__ import annotations

import io
import resource
import struct
import zipfile
from pathlib import Path

import pytest

from sizewright.sheet.read import read_sheet
from sizewright.text.errors import InputError

from ..fuzz.file_targets import workbook
from ..fuzz.seeds import kept

PARTS = kept("xlsx")[2].decode()
SHEET = "xl/worksheets/sheet1.xml"
# A thousand figures ten times over, eight times: a hundred gigabytes.
LAUGHS = "<!DOCTYPE w [<!ENTITY a '" + "9" * 1000 + "'>" + "".join(
    f"<!ENTITY {name} '{f'&{before};' * 10}'>" for before, name in zip("abcdefgh", "bcdefghi", strict=True)
) + "]>"  # fmt: skip
LONG = "<!DOCTYPE w [<!ENTITY i '" + "9" * 200_000 + "'>]>"
ROOTS = {
    SHEET: "<worksheet",
    "xl/workbook.xml": "<workbook",
    "[Content_Types].xml": "<Types",
    "_rels/.rels": "<Relationships",
    "xl/_rels/workbook.xml.rels": "<Relationships",
}


def book(tmp_path: Path, part: str, declared: str, cell: str = "25") -> Path:
    """A workbook with a declaration in one of its parts, and a text in its one cell."""
    before, mark, after = PARTS.partition(f"=== {part}\n")
    text = before + mark + after.replace(ROOTS[part], declared + ROOTS[part], 1)
    path = tmp_path / "a.xlsx"
    path.write_bytes(workbook(text.replace("<t>25</t>", f"<t>{cell}</t>").encode()))
    return path


def test_the_workbook_reads_as_it_is(tmp_path: Path) -> None:
    assert [line.callout for line in read_sheet(book(tmp_path, SHEET, "")).lines] == ["25"]


@pytest.mark.parametrize("part", ROOTS)
def test_an_external_entity_is_not_fetched(tmp_path: Path, part: str) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("77 H7", "utf-8")
    declared = f"<!DOCTYPE w [<!ENTITY i SYSTEM '{secret.as_uri()}'>]>"
    for cell in ("25", "25&i;"):
        try:
            sheet = read_sheet(book(tmp_path, part, declared, cell))
        except InputError:
            continue
        assert not any("77" in line.callout for line in sheet.lines)


@pytest.mark.parametrize("declared", [LAUGHS, LONG], ids=["nested", "long"])
def test_entities_that_grow_are_refused_in_little_memory(tmp_path: Path, declared: str) -> None:
    path = book(tmp_path, SHEET, declared, "25" + "&i;" * 500)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    with pytest.raises(InputError, match="does not read as an XLSX workbook"):
        read_sheet(path)
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 200_000  # KB


def test_a_part_that_is_longer_than_it_says_is_refused(tmp_path: Path) -> None:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as archive:
        for part in ("\n" + PARTS).split("\n=== ")[1:]:
            name, _, content = part.partition("\n")
            archive.writestr(name, content + " " * (70_000_000 if name == SHEET else 0))
        size = archive.getinfo(SHEET).file_size
    lied = data.getvalue().replace(struct.pack("<I", size), struct.pack("<I", 2000))
    path = tmp_path / "a.xlsx"
    path.write_bytes(lied)
    assert lied != data.getvalue()
    with pytest.raises(InputError, match="does not read as an XLSX workbook"):
        read_sheet(path)
