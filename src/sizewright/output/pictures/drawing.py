"""From a drawing to SVG and PNG. The PNG's letters come from a font that ships with the package, so that a machine
without fonts shows them too."""

from __future__ import annotations

from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING

from sizewright.output.atomic import write_whole
from sizewright.text.errors import InputError

if TYPE_CHECKING:
    import drawsvg

FONT = "DejaVu Sans"
ENDINGS = (".svg", ".png")
_FONT_FILE = "DejaVuSans-subset.ttf"
_PIXELS_PER_UNIT = 2
_UNITS_PER_INCH = 96


def svg_of(drawing: drawsvg.Drawing) -> str:
    """The drawing as SVG text."""
    text: str = drawing.as_svg()
    return text


def png_of(drawing: drawsvg.Drawing, dots_per_inch: int | None = None) -> bytes:
    """The drawing as PNG bytes, on white; one whose size is in millimetres needs its `dots_per_inch`."""
    import resvg_py

    with resources.as_file(resources.files(__package__) / _FONT_FILE) as font:
        return bytes(
            resvg_py.svg_to_bytes(
                svg_string=svg_of(drawing),
                background="#ffffff",
                zoom=_PIXELS_PER_UNIT if dots_per_inch is None else 1,
                dpi=dots_per_inch or _UNITS_PER_INCH,
                skip_system_fonts=True,
                font_files=[str(font)],
                font_family=FONT,
            )
        )


def write_picture(drawing: drawsvg.Drawing, path: Path) -> None:
    """Write the drawing to `path`, whole or not at all; the ending tells the form.

    Raises:
        InputError: the ending is neither .svg nor .png.
        OutputError: the file cannot be written.
    """
    check_picture_ending(path)
    write_whole(path, svg_of(drawing).encode() if path.suffix.lower() == ".svg" else png_of(drawing))


def check_picture_ending(path: Path) -> None:
    """Refuse an ending that tells no form.

    Raises:
        InputError: the ending is neither .svg nor .png.
    """
    if path.suffix.lower() not in ENDINGS:
        raise InputError(f"{path.name}: a picture ends in {' or '.join(ENDINGS)}")
