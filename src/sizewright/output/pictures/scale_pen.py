"""What the pictures of scales share: a sheet in millimetres of paper, and lines, numbers and shapes in grey on it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from sizewright.output.pictures.drawing import FONT

if TYPE_CHECKING:
    import drawsvg

INK, GREY, LIGHT = "#000000", "#d9d9d9", "#f2f2f2"
DOTS_PER_INCH = 600
MM_PER = {"mm": Fraction(1), "inch": Fraction(127, 5)}

# Widths on paper in mm.
FINE, LINE, EDGE = 0.16, 0.2, 0.3
NUMBER, SMALL_NUMBER, NOTE = 3.4, 2.6, 2.3


class Pen:
    """A picture of `width` by `height` millimetres of paper, drawn from its upper left corner."""

    def __init__(self, width: float, height: float) -> None:
        import drawsvg

        self._svg = drawsvg
        self.width, self.height = width, height
        self.drawing: drawsvg.Drawing = drawsvg.Drawing(round(width, 3), round(height, 3))
        self.drawing.set_render_size(f"{width:.3f}mm", f"{height:.3f}mm")

    def describe(self, words: str) -> None:
        """Say what the picture shows, for those who do not see it."""
        self.drawing.append_title(words)

    def clip(self, left: float, top: float, width: float, height: float) -> Any:
        """A region outside of which a shape given `clip_path` is not drawn."""
        region = self._svg.ClipPath()
        region.append(self._svg.Rectangle(left, top, width, height))
        return region

    def line(self, one: tuple[float, float], two: tuple[float, float], width: float = LINE, **more: Any) -> None:
        """A line between two points."""
        self.drawing.append(
            self._svg.Line(*_rounded(*one), *_rounded(*two), stroke=INK, stroke_width=width, fill="none", **more)
        )

    def shape(self, points: Sequence[tuple[float, float]], fill: str = "#ffffff", width: float = EDGE) -> None:
        """A closed outline, filled."""
        flat = [value for point in points for value in _rounded(*point)]
        stroke = INK if width else "none"
        self.drawing.append(self._svg.Lines(*flat, close=True, fill=fill, stroke=stroke, stroke_width=width))

    def box(
        self, left: float, top: float, right: float, bottom: float, fill: str = "#ffffff", width: float = EDGE
    ) -> None:
        """An upright rectangle."""
        self.shape([(left, top), (right, top), (right, bottom), (left, bottom)], fill, width)

    def circle(self, centre: tuple[float, float], radius: float, fill: str = "none", width: float = EDGE) -> None:
        """A circle."""
        stroke = INK if width else "none"
        self.drawing.append(self._svg.Circle(*_rounded(*centre), radius, fill=fill, stroke=stroke, stroke_width=width))

    def text(self, words: str, at: tuple[float, float], size: float = NUMBER, anchor: str = "middle") -> None:
        """Words whose middle height lies at `at`."""
        x, y = _rounded(at[0], at[1] + size * 0.36)  # capitals of the font are 0.73 of its size high
        self.drawing.append(
            self._svg.Text(words, size, x, y, text_anchor=anchor, fill=INK, font_family=f"{FONT}, sans-serif")
        )

    def arrow(self, tip: tuple[float, float], direction: tuple[float, float]) -> None:
        """A black triangle whose tip shows a line; `direction` points from its base to its tip, one long."""
        (x, y), (dx, dy) = tip, direction
        back = (x - 3.2 * dx, y - 3.2 * dy)
        self.shape([tip, (back[0] - 1.2 * dy, back[1] + 1.2 * dx), (back[0] + 1.2 * dy, back[1] - 1.2 * dx)], INK, 0)

    def wavy(self, at: float, top: float, bottom: float) -> None:
        """White out a rough break line from `top` to `bottom` at `at`, where an instrument goes on."""
        middle = (top + bottom) / 2
        third = (bottom - top) / 4
        self.drawing.append(
            self._svg.Path(stroke=INK, stroke_width=FINE, fill="none")
            .M(at, top).C(at + 1, top + third, at + 1, middle - third / 2, at, middle)
            .C(at - 1, middle + third / 2, at - 1, bottom - third, at, bottom)
        )  # fmt: skip


def _rounded(x: float, y: float) -> tuple[float, float]:
    """Places to a ten-thousandth of a millimetre: finer than any printer, short in the file."""
    return round(x, 4), round(y, 4)


def times(factor: Fraction) -> str:
    """How large a picture is: `drawn full size`, `drawn 2.5 times size`."""
    if factor == 1:
        return "drawn full size"
    return f"drawn {float(factor):g} times size"
