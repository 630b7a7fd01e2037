"""Surface texture, edges, hardness, tapers, knurls and sheets: each to its resolver, loaded where it occurs."""

from __future__ import annotations

from collections.abc import Iterable

from sizewright.notation.model_surfaces import Surface, Texture
from sizewright.resolve.characteristic import Characteristic
from sizewright.resolve.scope import Scope


def resolve_surface(feature: Surface, scope: Scope) -> Iterable[Characteristic]:
    """The characteristics of `feature`."""
    match feature:
        case Texture():
            from sizewright.resolve.texture import resolve_texture

            return resolve_texture(feature, scope)
    raise AssertionError(feature)
