"""Surface texture, edges, hardness, tapers, knurls and sheets: each to its resolver, loaded where it occurs."""

from __future__ import annotations

from collections.abc import Iterable

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
from sizewright.resolve.characteristic import Characteristic
from sizewright.resolve.scope import Scope


def resolve_surface(feature: Surface, scope: Scope) -> Iterable[Characteristic]:
    """The characteristics of `feature`."""
    match feature:
        case Texture():
            from sizewright.resolve.texture import resolve_texture

            return resolve_texture(feature, scope)
        case Hardness() | CaseDepth() | Treatment():
            from sizewright.resolve.hardness import resolve_hardness

            return resolve_hardness(feature, scope)
        case EdgeNote() | ForAll() | Edge():
            from sizewright.resolve.edges import resolve_edge

            return resolve_edge(feature, scope)
        case Taper():
            from sizewright.resolve.tapers import resolve_taper

            return resolve_taper(feature, scope)
        case Knurl():
            from sizewright.resolve.knurls import resolve_knurl

            return resolve_knurl(feature, scope)
        case SheetGauge():
            from sizewright.resolve.knurls import resolve_sheet_gauge

            return resolve_sheet_gauge(feature, scope)
