"""Files that cannot be used, and text in several encodings."""

import os
from pathlib import Path

import pytest

from sizewright.sheet.files import MOST_BYTES, MOST_LINES
from sizewright.sheet.read import read_sheet
from sizewright.sheet.rows import COLUMNS
from sizewright.sheet.shape import BLANKS
from sizewright.text.errors import InputError

TEXT = "part: Träger\n1: Ø25 ±0.1 ; 45°\n"


def _refusal(path: Path) -> str:
    with pytest.raises(InputError) as caught:
        read_sheet(path)
    return str(caught.value).replace(str(path), "FILE")


@pytest.mark.parametrize(
    ("name", "data", "message"),
    [
        ("a.sheet", b"25\0", "FILE is not a text file; a sheet is plain text, saved as UTF-8"),
        ("a.sheet", b"\x89PNG\r\n\x1a\n\x01", "FILE is not a text file; a sheet is plain text, saved as UTF-8"),
        ("a.sheet", "25".encode("utf-16-le"), "FILE is not a text file; a sheet is plain text, saved as UTF-8"),
        ("a.sheet", b"\xff\xfe2", "FILE is marked as UTF-16 but does not read as UTF-16"),
        ("a.sheet", b"\xef\xbb\xbf\xff", "FILE is marked as UTF-8 but does not read as UTF-8"),
        ("a.sheet", b"2" * (MOST_BYTES + 1), "FILE is too large: 5 MB is the most"),
        ("a.sheet", b"\n" * MOST_LINES, f"FILE has {MOST_LINES + 1} lines; {MOST_LINES} are the most"),
        ("a.docx", b"25", 'FILE has the ending ".docx"; a sheet ends in .sheet, .csv, .tsv or .xlsx'),
        ("a", b"25", "FILE has no ending; a sheet ends in .sheet, .csv, .tsv or .xlsx"),
        ("a.csv", b"", f'FILE has no column "callout"; its header row names the columns {", ".join(COLUMNS)}'),
        ("a.xlsx", b"25", "FILE is no XLSX workbook"),
    ],
)  # fmt: skip
def test_files_that_cannot_be_used(tmp_path: Path, name: str, data: bytes, message: str) -> None:
    path = tmp_path / name
    path.write_bytes(data)
    assert _refusal(path) == message


@pytest.mark.parametrize("ending", [".sheet", ".csv", ".xlsx"])
def test_a_missing_file_and_a_folder(tmp_path: Path, ending: str) -> None:
    assert _refusal(tmp_path / f"none{ending}") == "there is no file FILE"
    (tmp_path / f"folder{ending}").mkdir()
    assert _refusal(tmp_path / f"folder{ending}") == "FILE is a folder, not a file"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes on this system")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.sheet")
    assert _refusal(tmp_path / "a.sheet") == "FILE is no ordinary file"


def test_a_file_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    path = tmp_path / "a.sheet"
    path.touch()
    monkeypatch.setattr(Path, "open", refuse)
    assert _refusal(path) == "FILE cannot be read: Permission denied"


@pytest.mark.parametrize("name", ["a\0b.sheet", "a" * 5000 + ".sheet"])
def test_a_name_no_file_can_have(name: str) -> None:
    assert _refusal(Path(name))


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-32"])
def test_encodings(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "a.SHEET"
    path.write_bytes(TEXT.encode(encoding))
    sheet = read_sheet(path)
    assert (sheet.title["part"].value, sheet.lines[0].callout, sheet.remarks) == ("Träger", "Ø25 ±0.1", ())


@pytest.mark.parametrize("encoding", ["latin-1", "cp1252"])
def test_another_encoding_is_read_with_a_remark(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "a.sheet"
    path.write_bytes(TEXT.encode(encoding) + b"; \x93 \x81")
    sheet = read_sheet(path)
    assert (sheet.title["part"].value, sheet.lines[0].callout, sheet.faults) == ("Träger", "Ø25 ±0.1", ())
    (remark,) = sheet.remarks
    assert "not UTF-8" in remark


def test_every_blank_is_known() -> None:
    blanks = {chr(code) for code in range(0x3100) if chr(code).isspace()}
    assert blanks == set(BLANKS) | set(" \t\n\r\x0b\x0c")


# (file's name, its bytes, what is said)
MADE_TO_BE_LARGE = [
    ("a.sheet", b"1: " + b"25 " * 1_600_000, "FILE: line 1 has 4800003 characters; 20000 are the most"),
    ("a.sheet", b"\t" * 20_001, "FILE: line 1 has 20001 characters; 20000 are the most"),
    ("a.csv", b"callout\n" + b"25," * 7000, "FILE: line 2 has 21000 characters; 20000 are the most"),
    ("a.csv", b"callout\n" + (b"," * 19_000 + b"\n") * 60, "FILE has more than 1000000 cells"),
    ("a.csv", b'callout\n"' + b"25\n" * 50_001 + b'"', f"FILE has 50003 lines; {MOST_LINES} are the most"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "data", "message"), MADE_TO_BE_LARGE)
def test_files_made_to_be_large_are_refused_before_they_are_taken_apart(
    tmp_path: Path, name: str, data: bytes, message: str
) -> None:
    path = tmp_path / name
    path.write_bytes(data)
    assert _refusal(path) == message
