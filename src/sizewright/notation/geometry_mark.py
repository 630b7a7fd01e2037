"""Geometric frames and datums where they stand in a callout: their text goes to a language of its own."""

from __future__ import annotations

from sizewright.notation.pieces import RawReady
from sizewright.notation.tokens import Token


class GeometryMarkBuilder:
    """Rules of `geometry_mark.lark`."""

    def geometric(self, children: list[Token]) -> RawReady:
        """The frames that begin here."""
        from sizewright.notation.geometry import read_frames  # most callouts have no frame

        token = children[0]
        return read_frames(str(token), token.start_pos or 0)

    def datum(self, children: list[Token]) -> RawReady:
        """The datum that is named here."""
        from sizewright.notation.datums import read_datum

        token = children[0]
        return read_datum(str(token), token.start_pos or 0)
