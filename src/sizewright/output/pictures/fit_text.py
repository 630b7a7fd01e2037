"""The same picture of a fit in plain text, for the terminal: to scale as far as lines of text can be."""

from __future__ import annotations

from fractions import Fraction

from sizewright.output.pictures.zones import Zone, Zones, figure

_LINES = 12
_BOX = 10
_LABELS = 8


def fit_text(zones: Zones) -> list[str]:
    """The picture as lines of at most 60 characters: deviations at the left, the hole's zone, the shaft's zone."""
    levels = sorted({Fraction(0), *(bound for zone in zones.zones for bound in (zone.lower, zone.upper))}, reverse=True)
    rows = _rows(levels)
    height = max(rows.values()) + 1
    columns = [_column(zone, rows, height) for zone in zones.zones]
    labels = {row: figure(level) for level, row in rows.items()}
    lines = [f"{zones.title} (deviations in {zones.fine_unit})"]
    for row in range(height):
        label = f"{labels.get(row, ''):>{_LABELS}} "
        if row == rows[Fraction(0)]:
            cells = [cell if cell.strip() else "-" * _BOX for cell in (column[row] for column in columns)]
            lines.append(f"{label}-{'-'.join(cells)}-- nominal")
        else:
            lines.append(f"{label} {' '.join(column[row] for column in columns)}".rstrip())
    lines += [f"{name} {figure(value).lstrip('+')} {zones.fine_unit}" for name, value in zones.extremes]
    return lines


def _rows(levels: list[Fraction]) -> dict[Fraction, int]:
    """A line for each level: in proportion, but never two levels on one line."""
    span = (levels[0] - levels[-1]) or Fraction(1)
    rows: dict[Fraction, int] = {}
    last = -1
    for level in levels:
        last = max(last + 1, round((levels[0] - level) / span * _LINES))
        rows[level] = last
    return rows


def _column(zone: Zone, rows: dict[Fraction, int], height: int) -> list[str]:
    top, bottom = rows[zone.upper], rows[zone.lower]
    edge, side = "+" + "-" * (_BOX - 2) + "+", "|" + " " * (_BOX - 2) + "|"
    named = f"|{zone.name:^{_BOX - 2}}|" if len(zone.name) <= _BOX - 2 else f"|{zone.name[: _BOX - 2]}|"
    lines = [" " * _BOX] * height
    for row in range(top, bottom + 1):
        lines[row] = edge if row in (top, bottom) else side
    if bottom - top > 1:
        lines[(top + bottom) // 2] = named
    else:
        lines[top] = f"+{zone.name:-^{_BOX - 2}}+"
    return lines
