"""Knurls, and sheets by their gauge number."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from sizewright.notation.model import Size
from sizewright.notation.model_surfaces import Knurl, SheetGauge
from sizewright.resolve.characteristic import Characteristic, Status
from sizewright.resolve.scope import Scope
from sizewright.resolve.sizes import resolve_size
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import plain

_UNITS = {"tpi": "tpi", "dp": "diametral_pitch", "mm": "mm", "inch": "inch"}
# Teeth per inch: a knurl maker's general information, and a page on knurling by circular pitch (both 14, 21, 33).
_TEETH = {"coarse": 14, "medium": 21, "fine": 33}
_WIDEST = {"mm": Decimal(4), "inch": Decimal("0.16")}
# DIN 82: the letters of a knurl's form.
_FORMS = {
    "RAA": "with axial teeth", "RBL": "left-hand", "RBR": "right-hand", "RGE": "left-right, crests raised (diamond)",
    "RGV": "left-right, crests sunk", "RKE": "crossed, crests raised", "RKV": "crossed, crests sunk",
}  # fmt: skip


def resolve_knurl(knurl: Knurl, scope: Scope) -> Iterator[Characteristic]:
    """The one characteristic of a knurl: its pitch, without limits.

    Raises:
        CalloutError: a pitch whose unit is not told and not sure.
    """
    unit = _unit(knurl, scope)
    why = [f"{knurl.pattern} knurl" if knurl.pattern else "knurl"]
    if knurl.pattern in _FORMS:
        why = [f"{knurl.pattern}: {_FORMS[knurl.pattern]} (DIN 82)"]
    why += [knurl.standard] if knurl.standard else []
    why += ["raised"] if knurl.raised else []
    why += [f"{plain(knurl.angle)}° as typed"] if knurl.angle is not None else []
    if knurl.unit == "dp":
        why.append("diametral pitch: teeth in an inch of blank diameter (ASME B94.6)")
    if knurl.grade is not None:
        why.append(f"{knurl.grade}: usually {_TEETH[knurl.grade]} teeth per inch (common practice)")
    why.append("no tolerance typed")
    yield Characteristic(
        "knurl", unit, Status.UNTOLERANCED, knurl.pitch, count=knurl.repeat.count, why=tuple(why), extra=_extra(knurl)
    )


def _extra(knurl: Knurl) -> dict[str, object]:
    return {"parameter": knurl.pattern} if knurl.pattern else {}


def _unit(knurl: Knurl, scope: Scope) -> str:
    if knurl.pitch is None:
        return "none"
    if knurl.unit is not None:
        return _UNITS[knurl.unit]
    unit = scope.context.unit
    if knurl.standard in ("DIN 82", "ISO 13444"):
        unit = "mm"
    if knurl.pitch > _WIDEST[unit]:
        raise CalloutError(
            f"a knurl of {plain(knurl.pitch)}: a pitch, teeth per inch or diametral pitch",
            *knurl.span,
            f"{plain(knurl.pitch)} TPI, {plain(knurl.pitch)} DP, or PITCH {plain(knurl.pitch)} mm",
        )
    return unit


def resolve_sheet_gauge(sheet: SheetGauge, scope: Scope) -> Iterator[Characteristic]:
    """The one characteristic of a sheet: its thickness, where one stands beside the gauge number."""
    said = f"{sheet.system or 'gauge'} {sheet.number}" + (f", {sheet.material}" if sheet.material else "")
    if sheet.thickness is None:
        scope.warn(
            f"gauge {sheet.number} is another thickness for each material: type it in decimals",
            sheet.span,
        )
        why = (f"{said}: the thickness depends on the table of the material, none is taken",)
        yield Characteristic("thickness", scope.context.unit, Status.UNTOLERANCED, count=sheet.repeat.count, why=why)
        return
    for made in resolve_size(Size("thickness", sheet.thickness, sheet.repeat), None, scope):
        yield Characteristic(
            made.kind, made.unit, made.status, made.nominal, made.limits, count=made.count, why=(*made.why, said)
        )
