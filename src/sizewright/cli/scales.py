"""`sizewright scales`: pictures of scales to practise reading on, as a sheet with its key, or one by one."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from sizewright.cli.tell import tell
from sizewright.text.errors import InputError

if TYPE_CHECKING:
    from sizewright.training.scales.exercises import Exercise
    from sizewright.training.scales.model import AnyConstruction

_EPILOG = """\
examples:
  sizewright scales --list
  sizewright scales --kind vernier-caliper --form 0.02 --count 12 --seed 4 -o sheet.docx
  sizewright scales --kind vernier-caliper --form 0.02 --count 12 --seed 4 -o key.docx --key
  sizewright scales --kind micrometer --unit inch --seed 7 --key          the key on the terminal
  sizewright scales --kind micrometer --form 0.01 --setting 22.36 -o micrometer.png

The same kinds, count, seed and shares make the same sheet; --key makes the key to it. Plain readings come first.
"""
_COUNT = 12


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `scales`."""
    parser.epilog = _EPILOG
    parser.add_argument("--list", action="store_true", help="list the kinds and their forms")
    parser.add_argument("--kind", action="append", default=[], metavar="KIND", help="kind of scale; may be repeated")
    parser.add_argument("--form", help="one form of the kind, as --list names it (all forms in the unit)")
    parser.add_argument("--unit", choices=["mm", "inch"], help="unit of the scales (mm)")
    parser.add_argument("--count", type=int, metavar="N", help=f"how many to read ({_COUNT})")
    parser.add_argument("--seed", type=int, metavar="N", help="the same number makes the same sheet (any)")
    parser.add_argument(
        "--zero-errors", type=_share, default=Fraction(1, 4), metavar="SHARE", help="share with a zero error (0.25)"
    )
    parser.add_argument(
        "--inside", type=_share, default=Fraction(1, 6), metavar="SHARE",
        help="share of vernier calipers read inside, nibs to be added (1/6)",
    )  # fmt: skip
    parser.add_argument("--setting", metavar="VALUE", help="draw this reading of one form instead")
    parser.add_argument("--key", action="store_true", help="the trainer's key: answers, steps, lines marked")
    parser.add_argument("--paper", choices=["A4", "Letter"], default="A4", help="paper of the DOCX")
    parser.add_argument(
        "-o", dest="file", type=Path, metavar="FILE", help="a sheet (.docx), or one picture (.svg, .png)"
    )
    parser.add_argument("--pictures", type=Path, metavar="DIR", help="write each picture as SVG and PNG into DIR")


def _share(text: str) -> Fraction:
    try:
        value = Fraction(text.replace(",", "."))
    except (ValueError, ZeroDivisionError):
        raise argparse.ArgumentTypeError(f"{text!r} is no share; a share is a number such as 0.25") from None
    if not 0 <= value <= 1:
        raise argparse.ArgumentTypeError(f"{text} is no share; from 0 to 1")
    return value


def run(given: argparse.Namespace) -> int:
    """List the scales, or write what was asked for."""
    if given.list:
        _print_list()
        return 0
    if not given.kind:
        raise InputError("--kind tells what to read, --list what there is")
    if given.file is None and given.pictures is None and not given.key:
        raise InputError("-o FILE or --pictures DIR tells where to write, --key prints the key")
    if given.file is not None:
        _check_ending(given.file)
    exercises = _exercises(given)
    if given.file is not None:
        _write(given, exercises)
    if given.pictures is not None:
        _write_pictures(given.pictures, exercises, given.key)
    if given.file is None and given.pictures is None:
        _print_key(exercises)
    return 0


def _print_list() -> None:
    from sizewright.training.scales.catalogue import SCALES
    from sizewright.training.scales.figures import UNIT_WORDS, short

    print(f"{'kind':<20}{'form':<18}{'reads to':<12}built")
    for scale in SCALES:
        unit = "" if scale.unit == "deg" else f" {UNIT_WORDS[scale.unit]}"
        value = f"{short(scale, scale.reading_value)}{unit}"
        print(f"{scale.kind:<20}{scale.form:<18}{value:<12}{scale.about}")


def _check_ending(path: Path) -> None:
    from sizewright.output.safe import one_line

    if path.suffix.lower() not in (".docx", ".svg", ".png"):
        raise InputError(
            f"{one_line(path.name)}: the ending tells the form; .docx for a sheet, .svg and .png for one picture"
        )


def _exercises(given: argparse.Namespace) -> tuple[Exercise, ...]:
    from sizewright.training.scales.catalogue import scales_of
    from sizewright.training.scales.exercises import Exercise, Wish, draw_exercises

    scales = tuple(scale for kind in dict.fromkeys(given.kind) for scale in scales_of(kind, given.unit, given.form))
    if not scales:
        raise InputError(f"no scale of this kind in {given.unit or 'mm'}; --list tells what there is")
    if given.setting is not None:
        scale, setting = _one_setting(scales, given)
        scale.check(setting)
        return (Exercise(1, scale, setting),)
    picture = given.file is not None and given.file.suffix.lower() != ".docx"
    count = given.count if given.count is not None else 1 if picture else _COUNT
    return draw_exercises(Wish(scales, count, given.zero_errors, given.inside), _seed(given.seed))


def _one_setting(scales: Sequence[AnyConstruction], given: argparse.Namespace) -> tuple[AnyConstruction, Fraction]:
    from sizewright.training.scales.figures import read_figure

    if len(scales) != 1:
        forms = ", ".join(scale.form for scale in scales)
        raise InputError(f"--setting needs one form: --form with one of {forms}")
    if given.count is not None or given.seed is not None:
        raise InputError("--setting names the one reading; --count and --seed draw readings")
    return scales[0], read_figure(given.setting)


def _seed(given: int | None) -> int:
    """The seed asked for; otherwise one that is told, so that the key can be made later."""
    if given is not None:
        return given
    from secrets import randbelow

    seed = randbelow(1_000_000)
    tell(f"sizewright: --seed {seed} makes this sheet again, and its key")
    return seed


def _write(given: argparse.Namespace, exercises: Sequence[Exercise]) -> None:
    path: Path = given.file
    if path.suffix.lower() == ".docx":
        from sizewright.output.atomic import write_whole
        from sizewright.output.docx_scales import scales_docx

        write_whole(path, scales_docx(exercises, given.paper, given.key))
    elif len(exercises) == 1:
        from sizewright.output.pictures.scale import exercise_pictures, write_scale

        write_scale(exercise_pictures(exercises[0], given.key)[0].pen, path)
    else:
        raise InputError(f"{path.name} holds one picture: --count 1, or --pictures DIR for several")
    tell(f"written: {path}")


def _write_pictures(folder: Path, exercises: Sequence[Exercise], key: bool) -> None:
    from sizewright.output.pictures.scale import exercise_pictures, write_scale

    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise InputError(f"{folder} cannot be made a folder: {error.strerror}") from None
    written = 0
    for each in exercises:
        for ending, picture in zip(("", "-zero"), exercise_pictures(each, key), strict=False):
            for form in (".svg", ".png"):
                write_scale(picture.pen, folder / f"{each.number:03d}{ending}{'-key' if key else ''}{form}")
                written += 1
    tell(f"written: {written} pictures in {folder}")


def _print_key(exercises: Sequence[Exercise]) -> None:
    from textwrap import fill

    from sizewright.output.scale_words import caption, sheet_title
    from sizewright.training.scales.exercises import sheet_mark
    from sizewright.training.scales.explain import steps
    from sizewright.training.scales.figures import say

    print(f"{sheet_title(exercises, key=True)}, sheet {sheet_mark(exercises)}")
    for each in exercises:
        print(f"{each.number:>3}  {say(each.scale, each.size)}: {caption(each)}, form {each.scale.form}")
        for step in steps(each):
            print(fill(step, 79, initial_indent=" " * 5, subsequent_indent=" " * 7))
