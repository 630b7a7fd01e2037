"""Tapers and slopes: the rules of `tapers.lark`, and the exact rate that each way of typing means."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import Any, Literal

from sizewright.notation.amounts import decimal, read
from sizewright.notation.build import span_of
from sizewright.notation.grammar import make_parser
from sizewright.notation.model import Repeat, Span
from sizewright.notation.model_surfaces import Taper
from sizewright.notation.parser import Parser
from sizewright.notation.parsing import read_whole
from sizewright.notation.tokens import Token
from sizewright.text.errors import CalloutError

WORDS = {
    "MARK": "TAPER", "SLOPE_MARK": "SLOPE", "NUMBER": "a number", "COLON": ":", "PER_FOOT": "PER FOOT",
    "PER_FOOT_FIRST": "", "PER_INCH": "", "PER_METRE": "", "PERCENT": "%", "NAMED": "MORSE TAPER 2", "FRACTION": "",
    "MIXED": "", "PLUS_MINUS": "±", "ANGLE": "", "ARC_MINUTES": "", "INCLUDED": "", "LPAR": "", "RPAR": ")",
    "LBOX": "", "RBOX": "]", "COMMA": "", "TYPICAL": "TYP", "REFERENCE": "REF", "BASIC": "BASIC", "PLACES": "",
    "FILLER": "", "$END": "the end",
}  # fmt: skip
_MAKERS = (
    (re.compile(r"morse|(?<![a-z])M\.?[TK]", re.IGNORECASE), "Morse"),
    (re.compile(r"brown|B ?&", re.IGNORECASE), "Brown & Sharpe"),
    (re.compile(r"jarno", re.IGNORECASE), "Jarno"),
    (re.compile(r"jac|JT", re.IGNORECASE), "Jacobs"),
)
_STEEPEST = 1
Standing = Literal["plain", "reference", "basic"]


class TapersBuilder:
    """Rules of `tapers.lark`."""

    def figure(self, children: list[Token]) -> tuple[Decimal, Span]:
        token = children[0]
        value = read(token.type, str(token), span_of(token)).value
        assert isinstance(value, Decimal)
        return value, span_of(token)

    def tolerance(self, children: list[Token]) -> Decimal:
        return decimal(children[-1].rstrip("."), span_of(children[-1]))

    def ratio(self, children: list[Token]) -> Taper:
        one, two = (decimal(token.rstrip("."), span_of(token)) for token in (children[0], children[2]))
        span = span_of(*children)
        if 0 in (one, two):
            raise CalloutError("a ratio with 0", *span, "1:10")
        return Taper(rate=Fraction(one) / Fraction(two), ratio=(one, two), span=span)

    def foot(self, children: list[Any]) -> Taper:
        return _rated(children, "inch per foot")

    def inch(self, children: list[Any]) -> Taper:
        return _rated(children, "inch per inch")

    def metre(self, children: list[Any]) -> Taper:
        return _rated(children, "mm per m")

    def share(self, children: list[Any]) -> Taper:
        return _rated(children, "%")

    def decimal(self, children: list[Any]) -> Taper:
        return _rated(children, "ratio")

    def angle(self, children: list[Token]) -> Taper:
        raise CalloutError(
            "a taper by its angle: the included angle, or the angle to the axis",
            *span_of(*children),
            "the angle alone as a size (30° ±0.5°), or the ratio (1:10)",
        )

    def taper(self, children: list[Any]) -> Taper:
        return _whole(children, "plain")

    def reference_taper(self, children: list[Any]) -> Taper:
        return _whole(children, "reference")

    def basic_taper(self, children: list[Any]) -> Taper:
        return _whole(children, "basic")


@cache
def _parser() -> Parser:
    return make_parser(("tapers", "terminals", "words"), ("taper",), TapersBuilder())


def read_taper(text: str, offset: int) -> tuple[Taper, ...]:
    """The taper of `text`, which stands at `offset` in the callout.

    Raises:
        CalloutError: it does not read, or tells no rate that is sure.
    """
    made: Taper = read_whole(_parser(), text, "taper", offset, WORDS)
    return (made._replace(span=(offset, offset + len(text))),)


def _rated(children: list[Any], unit: Literal["ratio", "inch per foot", "inch per inch", "mm per m", "%"]) -> Taper:
    figure: tuple[Decimal, Span] = next(child for child in children if isinstance(child, tuple))
    value, span = figure
    tolerance = next((child for child in children if isinstance(child, Decimal)), None)
    if value == 0:
        raise CalloutError("a taper of 0", *span, "1:10")
    if tolerance is not None and tolerance >= value:
        raise CalloutError("the lower limit of the taper is not above zero", *span, "a smaller tolerance")
    deviations = None if tolerance is None else (tolerance, -tolerance)
    return Taper(rate=Fraction(value), unit=unit, deviations=deviations, ratio=(value, Decimal(1)), span=span)


def _whole(children: list[Any], standing: Standing) -> Taper:
    tokens = [child for child in children if isinstance(child, Token)]
    sorts = {token.type for token in tokens}
    made = next((child for child in children if isinstance(child, Taper)), None)
    slope, taper = "SLOPE_MARK" in sorts, "MARK" in sorts
    if slope and taper:
        raise CalloutError("both a taper and a slope", *span_of(*tokens), "TAPER 1:10 or SLOPE 1:10")
    if made is None:
        token = next(token for token in tokens if token.type == "NAMED")
        if slope:
            raise CalloutError("a slope with the name of a taper", *span_of(token), "MORSE TAPER 2")
        made = _named(token)
    _check_steepness(made, marked=slope or taper)
    if made.unit == "ratio" and _is_bare_decimal(made) and not (slope or taper):
        raise CalloutError("a number that nothing tells to be a taper", *made.span, "TAPER 0.05, 1:20")
    for word, name in (("REFERENCE", "reference"), ("BASIC", "basic")):
        if word in sorts:
            if standing not in ("plain", name):
                raise CalloutError("both a reference and a basic taper", *span_of(*tokens), "one or the other")
            standing = name  # type: ignore[assignment]
    return made._replace(
        kind="slope" if slope else "taper",
        standing=standing,
        bare=not (slope or taper) and made.unit == "ratio" and not made.named,
        repeat=_repeat(tokens),
    )


def _is_bare_decimal(made: Taper) -> bool:
    return made.ratio is not None and made.ratio[1] == 1 and made.rate == Fraction(made.ratio[0])


def _check_steepness(made: Taper, *, marked: bool) -> None:
    rate = made.rate
    if rate is None:
        return
    per = {"ratio": 1, "inch per inch": 1, "inch per foot": 12, "mm per m": 1000, "%": 100}[made.unit]
    if rate / per >= _STEEPEST:
        what = "a taper" if marked else "a taper, or the scale of a drawing"
        raise CalloutError(f"{what} as wide as long or wider", *made.span, "TAPER 1:10; a cone this wide by its angle")


def _named(token: Token) -> Taper:
    figures = re.findall(r"\d+", token)
    letter = re.search(r"(?<=\d) ?([A-F])(?: taper)?$", token, re.IGNORECASE)
    maker = next((name for pattern, name in _MAKERS if pattern.search(token)), None)
    if len(set(figures)) > 1:
        raise CalloutError("two numbers of a taper", *span_of(token), "MORSE TAPER 2")
    if maker is None:
        short = re.search(r"[A-Za-z]+", token)
        assert short is not None
        maker = short[0].upper()
    return Taper(named=maker, number=figures[0] + (letter[1].upper() if letter else ""))


def _repeat(tokens: list[Token]) -> Repeat:
    typical = any(token.type == "TYPICAL" for token in tokens)
    places = [token for token in tokens if token.type == "PLACES"]
    if not places:
        return Repeat(None if typical else 1, typical)
    figure = re.search(r"\d+", places[0])
    assert figure is not None
    if len(places) > 1 or int(figure[0]) == 0:
        raise CalloutError("a second count, or a count of 0", *span_of(places[-1]), "(4 PLACES)")
    return Repeat(int(figure[0]), typical)
