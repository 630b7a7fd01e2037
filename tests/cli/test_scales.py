"""`sizewright scales` as a trainer runs it."""

from __future__ import annotations

import io
from pathlib import Path

import docx
import pytest

from ..support_command import run


def test_the_list_names_every_kind_and_fits_a_terminal() -> None:
    done = run("scales", "--list")
    assert done.returncode == 0
    for kind in ("vernier-caliper", "height-gauge", "depth-gauge", "micrometer", "vernier-micrometer",
                 "depth-micrometer", "dial", "dial-caliper", "rule", "protractor"):  # fmt: skip
        assert f"\n{kind} " in done.stdout
    assert "1/128 in    7/16 in in 8 spaces" in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 110


def test_the_same_seed_makes_the_same_sheet_and_its_key(tmp_path: Path) -> None:
    options = ["scales", "--kind", "vernier-caliper", "--form", "0.02", "--count", "4", "--seed", "4"]
    for name, more in (("one.docx", []), ("two.docx", []), ("key.docx", ["--key"])):
        done = run(*options, "-o", str(tmp_path / name), *more)
        assert (done.returncode, done.stdout) == (0, "")
        assert done.stderr == f"written: {tmp_path / name}\n"
    one, two, key = (
        docx.Document(io.BytesIO((tmp_path / f"{name}.docx").read_bytes())) for name in ("one", "two", "key")
    )
    assert one.element.xml == two.element.xml
    images = [
        [rel.target_part.blob for rel in each.part.rels.values() if "image" in rel.reltype] for each in (one, two)
    ]
    assert images[0] == images[1]
    terminal = run(*options, "--key").stdout
    for row in key.tables[0].rows[1:]:
        assert f"{row.cells[0].text}  {row.cells[-1].text}: vernier caliper" in terminal
    footers = {each.sections[0].footer.paragraphs[0].text.partition(", sheet ")[2] for each in (one, two, key)}
    assert len(footers) == 1


def test_a_sheet_without_a_seed_tells_the_one_it_took(tmp_path: Path) -> None:
    done = run("scales", "--kind", "rule", "--count", "2", "-o", str(tmp_path / "sheet.docx"))
    assert "makes this sheet again, and its key" in done.stderr
    seed = done.stderr.split("--seed ")[1].split()[0]
    key = run("scales", "--kind", "rule", "--count", "2", "--seed", seed, "--key").stdout
    mark = docx.Document(str(tmp_path / "sheet.docx")).sections[0].footer.paragraphs[0].text.split("sheet ")[1][:6]
    assert f"sheet {mark}" in key


def test_a_named_reading_is_drawn_and_explained(tmp_path: Path) -> None:
    options = ["scales", "--kind", "micrometer", "--form", "0.01", "--setting", "22,36"]
    for name in ("m.png", "m.svg"):
        assert run(*options, "-o", str(tmp_path / name)).returncode == 0
    assert (tmp_path / "m.png").read_bytes().startswith(b"\x89PNG")
    assert "22.36" not in (tmp_path / "m.svg").read_text(encoding="utf-8")
    assert "22.36 mm: outside micrometer" in run(*options, "--key").stdout
    angle = run("scales", "--kind", "protractor", "--setting", "12°50'", "--key")
    assert "together 12°50′" in angle.stdout


def test_pictures_go_into_a_folder(tmp_path: Path) -> None:
    folder = tmp_path / "new" / "pictures"
    done = run(
        "scales", "--kind", "dial", "--count", "4", "--zero-errors", "0.5", "--seed", "1", "--pictures", str(folder)
    )
    assert done.returncode == 0
    names = sorted(path.name for path in folder.iterdir())
    assert len(names) == 12
    assert {"001.svg", "001.png", "004.png"} <= set(names)
    assert sum("-zero" in name for name in names) == 4


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["-o", "x.docx"], "--kind tells what to read"),
        (["--kind", "theodolite", "-o", "x.docx"], "no scale theodolite; there are rule, vernier-caliper"),
        (["--kind", "rule"], "-o FILE or --pictures DIR"),
        (["--kind", "rule", "-o", "x.pdf"], "the ending tells the form"),
        (["--kind", "rule", "--form", "2", "-o", "x.docx"], "no form 2 of rule"),
        (["--kind", "rule", "--count", "0", "-o", "x.docx"], "from 1 to 200"),
        (["--kind", "rule", "--count", "3", "-o", "x.png"], "holds one picture"),
        (["--kind", "micrometer", "--setting", "5", "-o", "x.png"], "--setting needs one form"),
        (["--kind", "micrometer", "--form", "0.01", "--setting", "5.555", "-o", "x.png"], "in steps of 0.01 mm"),
        (["--kind", "micrometer", "--form", "0.01", "--setting", "26", "-o", "x.png"], "reads from 0 to 25"),
        (["--kind", "micrometer", "--form", "0.01", "--setting", "a lot", "-o", "x.png"], "'a lot' is no reading"),
        (["--kind", "rule", "--form", "1", "--setting", "-2", "--key"], "reads from 0"),
        (["--kind", "rule", "--seed", "1", "-o", "no/such/folder.docx"], "does not exist"),
    ],
)
def test_what_cannot_be_done_is_told_in_a_sentence(arguments: list[str], said: str, tmp_path: Path) -> None:
    done = run("scales", *arguments, cwd=tmp_path)
    assert done.returncode == 1
    assert said in done.stderr
    assert "Traceback" not in done.stderr
    assert not list(tmp_path.iterdir())


def test_a_share_that_is_none_is_bad_use() -> None:
    done = run("scales", "--kind", "rule", "--zero-errors", "2", "--key")
    assert done.returncode == 2
    assert "from 0 to 1" in done.stderr
