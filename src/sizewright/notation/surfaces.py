"""Rules of `surfaces.lark`: each part is read by the language of its own, which is loaded where it occurs."""

from __future__ import annotations

from typing import Any

from sizewright.notation.build import span_of
from sizewright.notation.pieces import RawReady
from sizewright.notation.tokens import Token


class SurfacesBuilder:
    """Rules of `surfaces.lark`."""

    def texture(self, children: list[Token]) -> RawReady:
        from sizewright.notation.texture import read_texture

        return _ready(children[0], read_texture)

    def hardness(self, children: list[Token]) -> RawReady:
        from sizewright.notation.hardness import read_hardness

        return _ready(children[0], read_hardness)

    def note_for_all(self, children: list[Token]) -> RawReady:
        from sizewright.notation.notes import read_note

        return _ready(children[0], read_note)

    def taper(self, children: list[Token]) -> RawReady:
        from sizewright.notation.tapers import read_taper

        return _ready(children[0], read_taper)

    def knurl(self, children: list[Token]) -> RawReady:
        from sizewright.notation.knurls import read_knurl

        return _ready(children[0], read_knurl)

    def sheet_gauge(self, children: list[Token]) -> RawReady:
        from sizewright.notation.knurls import read_sheet_gauge

        return _ready(children[0], read_sheet_gauge)


def _ready(token: Token, read: Any) -> RawReady:
    """What `read` makes of the token's text, with where it stands."""
    start, end = span_of(token)
    return RawReady(read(str(token).strip(" "), start), (start, end))
