"""Writing surface texture, edges, hardness, tapers, knurls and sheets: from the model to text that reads the same."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from sizewright.notation.model_surfaces import (
    CaseDepth,
    Edge,
    EdgeNote,
    ForAll,
    Hardness,
    Knurl,
    SheetGauge,
    Surface,
    Taper,
    Texture,
    Treatment,
)
from sizewright.text.numbers import plain

if TYPE_CHECKING:
    from sizewright.notation.model import Feature

_LAYS = {
    "parallel": "=", "perpendicular": "⊥", "crossed": "X", "multi-directional": "M", "circular": "C", "radial": "R",
    "particulate": "P",
}  # fmt: skip
_REMOVALS = {"required": "MRR ", "prohibited": "NMR ", "any": "APA ", None: ""}
_UNITS = {"um": " µm", "uin": " µin", "mm": " mm", "%": " %", None: ""}
_RULES = {"max": "Tmax", "16 %": "T16%", "median": "Tmed"}


def write_surface(feature: Surface, write: Callable[[Feature], str], *, comma: bool) -> str:
    """The text of `feature`; `write` writes a size that stands in it, `comma` tells decimals with a comma."""
    match feature:
        case Texture():
            return _texture(feature, comma=comma)
        case Hardness():
            return _hardness(feature, comma=comma)
        case CaseDepth():
            return _case_depth(feature, comma=comma)
        case EdgeNote():
            size = "" if feature.size is None else write(feature.size)
            return " ".join(
                part.upper() if part != size else part for part in (feature.words, size, *feature.after) if part
            )
        case ForAll():
            return " ".join((feature.words.upper(), write(feature.size), *(word.upper() for word in feature.after)))
        case Edge():
            return _edge(feature, comma=comma)
        case Taper():
            return _taper(feature, comma=comma)
        case Knurl():
            return _knurl(feature, comma=comma)
        case SheetGauge():
            return _sheet(feature, write)
        case Treatment(words):
            return words.upper()
    raise AssertionError(feature)


def _figure(value: Decimal, *, comma: bool) -> str:
    return plain(value).replace(".", ",") if comma else plain(value)


def _texture(texture: Texture, *, comma: bool) -> str:
    text = _REMOVALS[texture.removal] + (f"{texture.band}/" if texture.band else "")
    unit = _UNITS[texture.unit]
    comma = comma and texture.unit != "uin"
    if texture.grade:
        text += texture.grade
    elif texture.upper is not None or texture.lower is not None:
        name = texture.parameter + (str(texture.lengths) if texture.lengths else "")
        if not texture.parameter:
            text += "√"
        elif texture.rule == "max" and texture.upper is not None and not texture.parameter.endswith(")"):
            name += "max"
        bounds = [bound for bound in (texture.lower, texture.upper) if bound is not None]
        figures = "-".join(_figure(bound, comma=comma) for bound in bounds)
        if texture.parameter in ("RMS", "AA", "CLA", "AARH"):
            text += f"{figures}{unit} {texture.parameter}"
            text += " MIN" if texture.upper is None else ""
        else:
            between = "" if not texture.parameter else "=" if texture.parameter == "Rp" else " "  # Rp 3 is a thread too
            text += f"{name}{between}{figures}{unit}"
            text += " MIN" if texture.upper is None else ""
    written_max = texture.rule == "max" and "max " in text
    words = [] if written_max or texture.rule is None else [_RULES[texture.rule]]
    words += [f"LAY {_LAYS[texture.lay]}"] if texture.lay else []
    words += [f"ALLOWANCE {texture.allowance}"] if texture.allowance else []
    words += [word.upper() for word in texture.words]
    text = ", ".join(part for part in (text.strip(), *words) if part)
    if text.startswith("ALL OVER"):
        text = f"FINISH {text}"
    return f"({text})" if texture.reference else text


def _hardness(hardness: Hardness, *, comma: bool) -> str:
    figures = _bounded(hardness.nominal, hardness.lower, hardness.upper, comma=comma)
    scale = hardness.scale.upper() if hardness.scale.startswith("Shore") else hardness.scale
    condition = f"{'' if scale == 'HV' else ' '}{hardness.condition}" if hardness.condition else ""
    text = f"{figures} {scale}{condition}"
    text = f"({text})" if hardness.reference and not hardness.words else text
    words = f"{hardness.words.upper()} " if hardness.words else ""
    return words + text + (" REF" if hardness.reference and hardness.words else "")


def _case_depth(depth: CaseDepth, *, comma: bool) -> str:
    unit = {"mm": " mm", "inch": " in", None: ""}[depth.unit]
    comma = comma and depth.unit != "inch"
    figures = _bounded(depth.nominal, depth.lower, depth.upper, comma=comma) + unit
    words = f"{depth.words.upper()}, " if depth.words else ""
    if depth.name in ("CHD", "SHD", "NHD"):
        return f"{words}{depth.name} {depth.limit_hardness + ' = ' if depth.limit_hardness else ''}{figures}"
    name = f"{depth.name.upper()} " if depth.name else ""
    return f"{words}{name}CASE DEPTH {figures}"


def _bounded(nominal: Decimal | None, lower: Decimal | None, upper: Decimal | None, *, comma: bool) -> str:
    """A number with its bound or deviations, or two limits."""
    if nominal is None:
        assert lower is not None
        assert upper is not None
        return f"{_figure(lower, comma=comma)}-{_figure(upper, comma=comma)}"
    figure = _figure(nominal, comma=comma)
    if lower is not None and upper is not None:
        return f"{figure} +{_figure(upper - nominal, comma=comma)}/-{_figure(nominal - lower, comma=comma)}"
    return f"MIN {figure}" if lower is not None else f"MAX {figure}" if upper is not None else figure


def _edge(edge: Edge, *, comma: bool) -> str:
    unit = {"mm": " mm", "inch": " in", None: ""}[edge.unit]
    place = f"{edge.place.upper()} " if edge.place else ""
    upper, lower = (_signed(value, comma=comma and edge.unit != "inch") for value in (edge.upper, edge.lower))
    figures = lower if edge.upper == 0 else upper if edge.lower == 0 else f"{upper}/{lower}"
    return f"ISO 13715 {place}{figures}{unit}"


def _signed(value: Decimal, *, comma: bool) -> str:
    return ("-" if value < 0 else "+") + _figure(abs(value), comma=comma)


def _taper(taper: Taper, *, comma: bool) -> str:
    word = "SLOPE " if taper.kind == "slope" else "" if taper.bare or taper.named else "TAPER "
    if taper.named:
        name = "B&S" if taper.named == "Brown & Sharpe" else taper.named.upper()
        text = f"{name} {taper.number} TAPER" if taper.named in ("Brown & Sharpe", "Jarno", "Jacobs") else ""
        text = text.replace(f" {taper.number} TAPER", f" TAPER {taper.number}") or f"{name} {taper.number}"
    else:
        assert taper.ratio is not None
        comma = comma and taper.unit not in ("inch per foot", "inch per inch")
        one, two = (_figure(value, comma=comma) for value in taper.ratio)
        tolerance = f" ±{_figure(taper.deviations[0], comma=comma)}" if taper.deviations else ""
        units = {"inch per foot": " PER FOOT", "inch per inch": " IN/IN", "mm per m": " mm/m", "%": " %"}
        decimal = taper.unit != "ratio" or taper.rate == Fraction(taper.ratio[0])
        text = word + (f"{one}{tolerance}{units.get(taper.unit, '')}" if decimal else f"{one}:{two}")
    return f"({text})" if taper.standing == "reference" else f"[{text}]" if taper.standing == "basic" else text


def _knurl(knurl: Knurl, *, comma: bool) -> str:
    words = [f"{knurl.grade.upper()} KNURL" if knurl.grade else "KNURL", knurl.standard, knurl.pattern.upper()]
    if knurl.pitch is not None:
        value = _figure(knurl.pitch, comma=comma and knurl.unit != "inch")
        after = {"tpi": " TPI", "dp": " DP", "mm": " mm", "inch": " in", None: ""}[knurl.unit]
        words.append(f"{'' if knurl.unit in ('tpi', 'dp') else 'PITCH '}{value}{after}")
    words += ["RAISED"] if knurl.raised else []
    words += [f"{_figure(knurl.angle, comma=comma)}°"] if knurl.angle is not None else []
    return " ".join(word for word in words if word)


def _sheet(sheet: SheetGauge, write: Callable[[Feature], str]) -> str:
    from sizewright.notation.model import Size

    text = f"{sheet.number} {sheet.system or 'GA'}" + (f" {sheet.material.upper()}" if sheet.material else "")
    if sheet.thickness is None:
        return text
    size = write(Size("length", sheet.thickness))
    return f"{text} {size if size.startswith('(') or sheet.thickness.tolerance is None else f'({size})'}"
