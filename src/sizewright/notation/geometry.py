"""The language of geometric frames: its parser, the trade's words for its terminals, and the rules' methods."""

from __future__ import annotations

import re
from functools import cache
from typing import Any, Literal

from sizewright.notation.amounts import decimal, fraction
from sizewright.notation.build import counted, span_of
from sizewright.notation.datums import portion
from sizewright.notation.frames import Part, Zone, build_frame
from sizewright.notation.grammar import make_parser
from sizewright.notation.model import Amount, Form, Frame, Portion, Span
from sizewright.notation.parser import Parser
from sizewright.notation.parsing import read_whole
from sizewright.notation.pieces import RawReady, Tail
from sizewright.notation.segments import stacked
from sizewright.notation.tokens import Token
from sizewright.text.errors import CalloutError

FILES = ("geometry",)
WORDS = {
    "POSITION": "position",
    "FLATNESS": "flatness",
    "PERPENDICULARITY": "perpendicularity",
    "PARALLELISM": "parallelism",
    "CIRCULAR_RUN_OUT": "run-out",
    "SURFACE_PROFILE": "profile of a surface",
    "LINE_PROFILE": "profile of a line",
    "CONCENTRICITY": "concentricity",
    "STRAIGHTNESS": "",
    "ROUNDNESS": "",
    "CYLINDRICITY": "",
    "ANGULARITY": "",
    "SYMMETRY": "",
    "TOTAL_RUN_OUT": "",
    "ZONE": "a tolerance",
    "ZONE_FRACTION": "",
    "ZONE_DIAMETER": "Ø",
    "ZONE_SPHERE": "",
    "DIAMETER_AFTER": "",
    "PORTION": "",
    "MM": "mm",
    "INCH": "in",
    "DEGREES": "",
    "CIRCLED": "(M)",
    "BARE_MODIFIER": "",
    "CONDITION": "MMC",
    "PROJECTED": "",
    "UNEQUAL": "",
    "ZONE_WORD": "",
    "INDICATOR": "TIR",
    "MOST": "",
    "DATUM": "a datum",
    "OLD_DATUM": "",
    "COMMON_DATUM": "",
    "DASH": "",
    "DATUM_WORD": "",
    "DATUM_WORD_AFTER": "",
    "AND": "",
    "LEAD": "",
    "WITHIN": "",
    "TO": "TO",
    "SCOPE": "ALL AROUND",
    "FRAME_NOTE": "",
    "BAR": "|",
    "COMMA": "",
    "NEXT_SEGMENT": "",
    "$END": "the end",
}

# How often, where it stands last: TYP, 4 PLACES, (4X).
_LAST_COUNT = re.compile(
    r"(?:,|-)? ?\(? ?(?P<what>typ(?:ical)?|(?:\d{1,4}|two|three|four|five|six|eight) ?-?"
    r"(?:x|places?|plcs?|pl|holes?|off))(?![a-z])\.? ?\)? ?$",
    re.IGNORECASE,
)
_PORTION = re.compile(
    r"(?:/|per) ?(?P<round>Ø)? ?(?P<first>[\d.,]*\d)?(?: ?(?P<unit>mm|in(?:ch(?:es)?)?|\")\.?)?"
    r"(?: ?[x*] ?(?P<second>[\d.,]*\d)(?: ?(?P<unit2>mm|in(?:ch(?:es)?)?|\")\.?)?)?",
    re.IGNORECASE,
)


def read_frames(text: str, start: int) -> RawReady:
    """The frames in `text`, which stands at `start` in the callout, and how often they hold where that stands last.

    Raises:
        CalloutError: they do not read, or a part contradicts another.
    """
    text, places, typical = _last_counts(text, start)
    if re.fullmatch(r"[|\[│¦ ]*profile\.?(?![a-z]).*", text, re.IGNORECASE | re.DOTALL) and not re.match(
        r"[|\[│¦ ]*profile(?: tolerance)? (?:of |\(|any |a |the )?(?:any |a |the )?\(?(?:line|surf)",
        text,
        re.IGNORECASE,
    ):
        at = start + re.search("(?i)profile", text).start()  # type: ignore[union-attr]
        raise CalloutError(
            "a profile of a line, or of a surface", at, at + 7, "PROFILE OF A SURFACE, PROFILE OF A LINE"
        )
    # The text keeps its place, so that every part knows where it stands in the callout.
    frames: list[Frame] = read_whole(_parser(), " " * start + text, "frames", 0, WORDS)
    return RawReady(tuple(stacked(frames)), (start, start + len(text)), places, typical)


def _last_counts(text: str, start: int) -> tuple[str, Tail | None, bool]:
    places, typical = None, False
    while (found := _LAST_COUNT.search(text)) is not None:
        word = found["what"].lower()
        span = (start + found.start("what"), start + found.end("what"))
        if word.startswith("typ"):
            typical = True
        elif places is not None:
            raise CalloutError("a second count", *span, "one count for a frame")
        else:
            places = counted(found["what"], span, holes="hol" in word)
        text = text[: found.start()].rstrip(" ,")
    return text, places, typical


@cache
def _parser() -> Parser:
    return make_parser(FILES, ("frames",), _FramesBuilder())


class _FramesBuilder:
    """Rules of `geometry.lark`."""

    def characteristic(self, children: list[Token]) -> Token:
        return children[0]

    def zone_mark(self, children: list[Token]) -> Token:
        return children[0]

    def zone_unit(self, children: list[Token]) -> Token:
        return children[0]

    def zone(self, children: list[Any]) -> Zone:
        by_type = {token.type: token for token in children}
        size = by_type.get("ZONE") or by_type["ZONE_FRACTION"]
        if "DEGREES" in by_type:
            hint = "the width of the zone; the angle itself is a basic size, [30°]"
            raise CalloutError("an angle where the width of a zone is meant", *span_of(by_type["DEGREES"]), hint)
        unit: Literal["mm", "inch"] | None = "mm" if "MM" in by_type else "inch" if "INCH" in by_type else None
        span = span_of(size)
        if size.type == "ZONE_FRACTION":
            amount = fraction(str(size), span)._replace(unit=unit)
        else:
            last = next((token for token in reversed(children) if token.type in ("MM", "INCH")), size)
            amount = Amount(decimal(str(size), span), Form.DECIMAL, unit, (span[0], span_of(last)[1]))
        marks = [token for token in children if token.type in ("ZONE_DIAMETER", "ZONE_SPHERE", "DIAMETER_AFTER")]
        if len(marks) > 1:
            raise CalloutError("a second mark on one zone", *span_of(marks[1]), "Ø0.1")
        shape = "" if not marks else "spherical diameter" if marks[0].type == "ZONE_SPHERE" else "diameter"
        return Zone(amount, shape, _portion(by_type.get("PORTION"), amount), span_of(children[0], children[-1]))

    def word(self, children: list[Token]) -> Part:
        token = children[0]
        start, _ = span_of(token)
        return Part(token.type, token.strip(), (start, start + len(token.strip())))

    def frame(self, children: list[Any]) -> Frame:
        name, *parts = children
        return build_frame(_kind(name), parts, span_of(name))

    def segment(self, children: list[Any]) -> Frame:
        mark, *parts = children
        return build_frame("", parts, span_of(mark))

    def indicated(self, children: list[Any]) -> Frame:
        token, *parts = children
        return build_frame("circular run-out", [Part("INDICATOR", str(token), span_of(token)), *parts], span_of(token))

    def turned(self, children: list[Any]) -> Frame:
        zone, name, *parts = children
        if name.type == "INDICATOR":
            return build_frame("circular run-out", [zone, Part(name.type, str(name), span_of(name)), *parts], zone.span)
        return build_frame(_kind(name), [zone, *parts], zone.span)

    def frames(self, children: list[Any]) -> list[Frame]:
        return [child for child in children if isinstance(child, Frame)]


def _kind(token: Token) -> str:
    names = {"CIRCULAR_RUN_OUT": "circular run-out", "TOTAL_RUN_OUT": "total run-out"}
    return names.get(token.type) or token.type.lower().replace("_", " ")


def _portion(token: Token | None, zone: Amount) -> Portion | None:
    """What stands after a stroke or PER. A unit alone is one of it: .001/IN."""
    if token is None:
        return None
    span: Span = span_of(token)
    found = _PORTION.fullmatch(str(token))
    if found is None or not (found["first"] or found["unit"]):
        raise CalloutError("a part of the feature without its length", *span, "0.1/100, 0.1/25x25")
    if found["first"] is None:
        inch = (found["unit"] or "").lower().startswith(("i", '"'))
        if not inch or found["second"] or found["round"]:
            raise CalloutError("a part of the feature without its length", *span, "0.1/100, 0.1/25x25")
        return Portion(Amount(decimal("1", span), Form.DECIMAL, "inch", span))
    made = portion(found, span[0])
    if found["unit2"] and found["second"]:
        unit: Literal["mm", "inch"] = "mm" if found["unit2"].lower() == "mm" else "inch"
        assert made.second is not None
        made = made._replace(first=made.first._replace(unit=unit), second=made.second._replace(unit=unit))
    if made.first.value < zone.value:
        raise CalloutError("the part of the feature is smaller than its zone", *span, "0.1/100: zone, then length")
    return made
