"""Knurls, and sheets by their gauge number: the rules of `knurls.lark`."""

from __future__ import annotations

import re
from functools import cache
from typing import Literal

from sizewright.notation.amounts import arc, decimal
from sizewright.notation.build import span_of
from sizewright.notation.grammar import make_parser
from sizewright.notation.model import ONCE, Measure, Repeat, Size, Span, Standing
from sizewright.notation.model_surfaces import Knurl, SheetGauge
from sizewright.notation.parser import Parser
from sizewright.notation.parsing import read_whole
from sizewright.notation.tokens import Token
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import as_decimal

WORDS = {
    "NOUN": "KNURL", "PATTERN": "DIAMOND or STRAIGHT", "RAISED": "RAISED", "STANDARD": "DIN 82", "PITCHED": "a pitch",
    "TEETH": "33 TPI", "DIAMETRAL": "96 DP", "GRADE": "MEDIUM", "ANGLE": "an angle", "NUMBER": "a number", "UNIT": "",
    "COMMA": "", "PLACES": "", "TYPICAL": "TYP", "GAUGE": "16 GA", "MATERIAL": "STEEL", "SIZE": "a thickness",
    "LPAR": "(", "RPAR": ")", "$END": "the end",
}  # fmt: skip
_GRADES: dict[str, Literal["coarse", "medium", "fine"]] = {"coa": "coarse", "med": "medium", "fin": "fine"}
_SHEETS = ("sheet", "sheet metal", "thk", "thick")


class KnurlsBuilder:
    """Rules of `knurls.lark`."""

    def knurl(self, children: list[Token]) -> Knurl:
        made = Knurl(span=span_of(*children))
        pitched: Token | None = None
        places = typical = None
        bare: Token | None = None
        for token in children:
            span = span_of(token)
            match token.type:
                case "PATTERN":
                    name = token.upper() if len(token) == 3 else " ".join(token.lower().replace("-", " ").split())
                    made = made._replace(pattern=_once(made.pattern, name, span, "a second pattern"))
                case "RAISED":
                    made = made._replace(raised=token.lower() != "female")
                case "STANDARD":
                    made = made._replace(standard=_standard(token))
                case "GRADE":
                    made = made._replace(grade=_GRADES[token[:3].lower()])
                case "ANGLE":
                    made = made._replace(angle=as_decimal(arc(str(token), span).value))
                case "PITCHED" | "TEETH" | "DIAMETRAL" | "NUMBER":
                    if pitched is not None:
                        raise CalloutError("a second pitch", *span, "one pitch for a knurl")
                    pitched, bare = token, token if token.type == "NUMBER" else None
                    made = _pitched(made, token, span)
                case "UNIT":
                    if bare is None:
                        raise CalloutError("a unit without its number", *span, "KNURL 0.8 mm")
                    made = made._replace(unit="mm")
                case "PLACES":
                    places = token
                case "TYPICAL":
                    typical = token
        if not made.standard and not any(token.lower().startswith("knurl") for token in children):
            raise CalloutError("a pattern or pitch that nothing tells to be a knurl", *made.span, "DIAMOND KNURL 1")
        return made._replace(repeat=_repeat(places, typical))

    def thickness(self, children: list[Token]) -> Token:
        return next(token for token in children if token.type == "SIZE")

    def sheet_gauge(self, children: list[Token]) -> tuple[SheetGauge, Token | None]:
        tokens = {token.type: token for token in children}
        number = re.search(r"\d{1,2}(?:/0)?", tokens["GAUGE"])
        system = re.search(r"SWG|AWG|BWG|USS|MSG", tokens["GAUGE"], re.IGNORECASE)
        assert number is not None
        materials = [" ".join(token.lower().strip(".").split()) for token in children if token.type == "MATERIAL"]
        material = " ".join(word for word in materials if word not in _SHEETS)
        made = SheetGauge(
            number[0],
            system[0].upper() if system else "",
            material,
            None,
            _repeat(tokens.get("PLACES"), tokens.get("TYPICAL")),
        )
        return made, tokens.get("SIZE")


@cache
def _parser() -> Parser:
    return make_parser(("knurls", "terminals", "words"), ("knurl", "sheet_gauge"), KnurlsBuilder())


def read_knurl(text: str, offset: int) -> tuple[Knurl, ...]:
    """The knurl of `text`, which stands at `offset` in the callout.

    Raises:
        CalloutError: it does not read, or has two pitches or patterns.
    """
    made: Knurl = read_whole(_parser(), text, "knurl", offset, WORDS)
    return (made._replace(span=(offset, offset + len(text))),)


def read_sheet_gauge(text: str, offset: int) -> tuple[SheetGauge, ...]:
    """The sheet of `text`, which stands at `offset` in the callout; a thickness beside it is read as any size is.

    Raises:
        CalloutError: it does not read.
    """
    made, size = read_whole(_parser(), text, "sheet_gauge", offset, WORDS)
    span = (offset, offset + len(text))
    if size is None:
        return (made._replace(span=span),)
    start, end = span_of(size)
    thickness = _thickness(text[start:end], start + offset)
    if "(" in text[:start] and thickness.tolerance is None:
        thickness = thickness._replace(standing=Standing.REFERENCE)  # the number decides, the size is for information
    return (made._replace(thickness=thickness, span=span),)


def _thickness(text: str, offset: int) -> Measure:
    from sizewright.notation.read import read_folded

    callout, notes = read_folded(" " * offset + text)
    place = (offset, offset + len(text))
    feature = callout.features[0]
    if (
        len(callout.features) != 1
        or notes
        or not isinstance(feature, Size)
        or feature.kind not in ("length", "thickness")
    ):
        raise CalloutError("no thickness", *place, "16 GA (.060)")
    return feature.measure._replace(standing=Standing.PLAIN)


def _pitched(made: Knurl, token: Token, span: Span) -> Knurl:
    figure = re.search(r"\d+(?:[.,]\d+)?|[.,]\d+", token)
    assert figure is not None
    value = decimal(figure[0], span)
    if value == 0:
        raise CalloutError("a pitch of 0", *span, "KNURL 0.8")
    unit: Literal["mm", "inch", "tpi", "dp"] | None = None
    if token.type == "TEETH":
        unit = "tpi"
    elif token.type == "DIAMETRAL":
        unit = "dp"
    elif re.search(r"mm", token, re.IGNORECASE):
        unit = "mm"
    elif re.search(r"in|\"", token.lower().replace("pitch", "")):
        unit = "inch"
    return made._replace(pitch=value, unit=unit)


def _standard(token: Token) -> str:
    text = token.upper().replace(" ", "").replace("ANSI", "ASME")
    if text.startswith("DIN"):
        return "DIN 82"
    return "ISO 13444" if text.startswith("ISO") else "ASME B94.6"


def _once(before: str, name: str, span: Span, message: str) -> str:
    if before and before != name:
        raise CalloutError(message, *span, "one for a knurl")
    return name


def _repeat(places: Token | None, typical: Token | None) -> Repeat:
    if places is None:
        return Repeat(None, True) if typical is not None else ONCE
    figure = re.search(r"\d+", places)
    assert figure is not None
    if int(figure[0]) == 0:
        raise CalloutError("a count of 0", *span_of(places))
    return Repeat(int(figure[0]), typical is not None)
