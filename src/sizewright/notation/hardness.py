"""Hardness and case depth: the rules of `hardness.lark`, and which words belong to which number."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any, Literal

from sizewright.notation.amounts import decimal
from sizewright.notation.build import span_of
from sizewright.notation.grammar import make_parser
from sizewright.notation.model import Repeat, Span
from sizewright.notation.model_surfaces import CaseDepth, Hardness, Treatment
from sizewright.notation.parser import Parser
from sizewright.notation.parsing import read_whole
from sizewright.notation.tokens import Token
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import add

WORDS = {
    "SCALE_BEFORE": "HRC and its number", "SCALE_AFTER": "HRC or another scale", "NUMBER": "a number",
    "DEPTH_BEFORE": "a case depth", "DEPTH_AFTER": "DEEP", "TREATMENT": "a treatment", "FILLER": "", "AND": "",
    "COLON": "", "COMMA": "", "SLASH": "", "RELATION": "", "BOUND_WORD": "max or min", "RANGE": "-",
    "DEVIATIONS": "deviations", "PLUS_MINUS": "±", "MM": "mm", "INCH": "in", "PLACES": "", "TYPICAL": "TYP",
    "REFERENCE": "", "LPAR": "", "RPAR": ")", "$END": "the end",
}  # fmt: skip
_SCALES = {"brinell": "HBW", "hb": "HBW", "bhn": "HBW", "vickers": "HV", "dph": "HV", "vpn": "HV", "knoop": "HK"}
# Test forces of HV (ISO 6507-1): a number of these after HV can be one.
_FORCES = frozenset({"0.1", "0.2", "0.3", "0.5", "1", "3", "5", "10", "20", "30", "50", "100"})
_HARDENS_A_CASE = re.compile(r"case|carburi|nitrid|nitrocarburi|induction|flame|surface|laser|harden", re.IGNORECASE)
_DEEPEST = 10  # mm or inches: a number without its scale that is larger is a hardness


@dataclass(slots=True, eq=False, repr=False)
class _Values:
    """A number with its bounds; `span` is where it stands."""

    nominal: Decimal | None
    lower: Decimal | None
    upper: Decimal | None
    unit: Literal["mm", "inch"] | None
    span: Span


@dataclass(slots=True, eq=False, repr=False)
class _Word:
    sort: str
    text: str
    span: Span


_Made = Hardness | CaseDepth


class HardnessBuilder:
    """Rules of `hardness.lark`."""

    def unit(self, children: list[Token]) -> Token:
        return children[0]

    def values(self, children: list[Token]) -> _Values:
        span = span_of(*children)
        numbers = [decimal(token.rstrip("."), span_of(token)) for token in children if token.type == "NUMBER"]
        bounds = {token[:3].lower() for token in children if token.type == "BOUND_WORD"}
        for token in children:
            if token.type == "RELATION":
                bounds.add("min" if token[0] in "≥>" else "max")
        between = next((token for token in children if token.type in ("RANGE", "PLUS_MINUS", "DEVIATIONS")), None)
        unit = _unit_of(children)
        if bounds and (between is not None or len(bounds) > 1):
            raise CalloutError("max or min beside a tolerance", *span, "one or the other")
        if bounds:
            low, high = (numbers[0], None) if "min" in bounds else (None, numbers[0])
            return _Values(numbers[0], low, high, unit, span)
        if between is None:
            return _Values(numbers[0], None, None, unit, span)
        if between.type == "RANGE":
            if numbers[0] == numbers[1]:
                raise CalloutError("two limits that are the same", *span, "58-62 HRC")
            return _Values(None, min(numbers), max(numbers), unit, span)
        upper, lower = (numbers[1], -numbers[1]) if between.type == "PLUS_MINUS" else _deviations(between)
        return _Values(numbers[0], _sum(numbers[0], lower), _sum(numbers[0], upper), unit, span)

    def scale_first(self, children: list[Any]) -> _Made:
        return _hardness(children[0], children[1], [], span_of(*children))

    def scale_last(self, children: list[Any]) -> _Made:
        return _hardness(children[1], children[0], children[2:], span_of(*children))

    def depth_first(self, children: list[Any]) -> _Made:
        return _depth(children[0], children[1], children[2:], span_of(*children))

    def depth_last(self, children: list[Any]) -> _Made:
        word = next(child for child in children if isinstance(child, Token) and child.type == "DEPTH_AFTER")
        return _depth(word, children[0], children[1:], span_of(*children))

    def bare(self, children: list[Any]) -> _Values:
        values: _Values = children[0]
        return _Values(values.nominal, values.lower, values.upper, _unit_of(children[1:]) or values.unit, values.span)

    def said(self, children: list[Token]) -> _Word:
        text = re.sub(r"^h\.?t\.?$", "heat treat", " ".join(children[0].lower().split()))
        return _Word("said", text.replace(" & ", "&"), span_of(children[0]))

    def filler(self, children: list[Token]) -> _Word:
        return _Word("filler", "", span_of(children[0]))

    def places(self, children: list[Token]) -> _Word:
        figure = re.search(r"\d+", children[0])
        assert figure is not None
        if int(figure[0]) == 0:
            raise CalloutError("a count of 0", *span_of(children[0]))
        return _Word("places", figure[0], span_of(children[0]))

    def typical(self, children: list[Token]) -> _Word:
        return _Word("typical", "", span_of(children[0]))

    def reference(self, children: list[Token]) -> _Word:
        return _Word("reference", "", span_of(children[0]))

    def hardness(self, children: list[Any]) -> tuple[_Made | Treatment, ...]:
        return _together(children, reference=False)

    def reference_hardness(self, children: list[Any]) -> tuple[_Made | Treatment, ...]:
        return _together(children, reference=True)


@cache
def _parser() -> Parser:
    return make_parser(("hardness", "terminals", "words"), ("hardness",), HardnessBuilder())


def read_hardness(text: str, offset: int) -> tuple[_Made | Treatment, ...]:
    """The hardnesses and case depths of `text`, which stands at `offset` in the callout.

    Raises:
        CalloutError: it does not read, or a number has no scale.
    """
    made: tuple[_Made | Treatment, ...] = read_whole(_parser(), text, "hardness", offset, WORDS)
    return tuple(
        each if isinstance(each, Treatment) else each._replace(span=(each.span[0] + offset, each.span[1] + offset))
        for each in made
    )


def _unit_of(children: list[Any]) -> Literal["mm", "inch"] | None:
    units = {"MM", "INCH"} & {child.type for child in children if isinstance(child, Token)}
    return None if not units else "mm" if units == {"MM"} else "inch"


def _sum(one: Decimal, two: Decimal) -> Decimal:
    total = add(one, two)
    assert isinstance(total, Decimal)
    return total


def _deviations(token: Token) -> tuple[Decimal, Decimal]:
    """Upper and lower deviation; one that stands alone has 0 below it (60 +4 HRC, as ISO 15787 writes it)."""
    span = span_of(token)
    figures = [
        (sign, decimal(figure, span)) for sign, figure in re.findall(r"([+-]?) ?(\d+(?:[.,]\d+)?|[.,]\d+)", token)
    ]
    upper = figures[0][1] if figures[0][0] != "-" else -figures[0][1]
    if len(figures) == 1:
        return upper, Decimal(0)
    sign, figure = figures[1]
    if sign != "-" and figure != 0:
        raise CalloutError("a lower deviation without its sign", *span, "60 +4/-2 HRC, 60 +4/0 HRC")
    return upper, -figure


def _bounded(values: _Values, after: list[Any]) -> _Values:
    """`values` with a max or min that stands behind the scale."""
    word = next((child for child in after if isinstance(child, Token) and child.type == "BOUND_WORD"), None)
    if word is None:
        return values
    if values.nominal is None or values.lower is not None or values.upper is not None:
        raise CalloutError("max or min beside a tolerance", *span_of(word), "one or the other")
    low = word.lower().startswith("min")
    return _Values(
        values.nominal, values.nominal if low else None, None if low else values.nominal, values.unit, values.span
    )


def _hardness(token: Token, values: _Values, after: list[Any], span: Span) -> Hardness:
    if values.unit is not None:
        raise CalloutError("a unit of length on a hardness", *values.span, "58-62 HRC")
    values = _bounded(values, after)
    scale, condition = _scale(token)
    if scale == "HV" and not condition and token.type == "SCALE_BEFORE" and values.lower is values.upper is None:
        force = str(values.nominal)
        if force in _FORCES:
            raise CalloutError(
                f"HV {force} can be a hardness or the test force of one without its number",
                *span,
                f"{force} HV, or 700 HV{force}",
            )
    return Hardness(scale, values.nominal, values.lower, values.upper, condition, span=span)


def _scale(token: Token) -> tuple[str, str]:
    """The scale in the spelling of its standard, and the test's condition (30 of HV30, 10/3000 of HBW 10/3000)."""
    text = token.rstrip(" :=").replace('"', "")
    letter = re.match(r"(?:(?:durometer )?(shore)|(rockwell).*?) ?([A-Z])(?: scale)?$", text, re.IGNORECASE)
    if letter:
        return (f"Shore {letter[3].upper()}" if letter[1] else f"HR{letter[3].upper()}"), ""
    short = re.match(r"R([cb])$", text, re.IGNORECASE)
    if short:
        return f"HR{short[1].upper()}", ""
    parts = re.match(r"(HR ?(?:15|30|45)? ?[A-Z]W?|[A-Z]+)(?: hardness)?(?: no\.?)? ?([\d.,/]*)$", text, re.IGNORECASE)
    assert parts is not None
    name = parts[1].replace(" ", "")
    return _SCALES.get(name.lower(), name.upper()), parts[2].replace(",", ".")


def _depth(token: Token, values: _Values, after: list[Any], span: Span) -> CaseDepth:
    values = _bounded(values, after)
    unit = _unit_of(after) or values.unit
    parts = re.match(r"(CHD|SHD|NHD|Eht|Rht|Nht)(?: ?(\d{3}(?: ?HV ?\d+(?:[.,]\d+)?)?))?", token, re.IGNORECASE)
    names = {"EHT": "CHD", "RHT": "SHD", "NHT": "NHD"}
    name = parts[1].upper() if parts else "effective" if re.search("effective|ECD", token, re.IGNORECASE) else ""
    name = "total" if not parts and "total" in token.lower() else names.get(name, name)
    limit = (parts[2] or "").upper().replace(" ", "").replace("HV", " HV ").strip() if parts else ""
    made = CaseDepth(values.nominal, values.lower, values.upper, unit, name, limit, span=span)
    low = re.match(r"min|max", token, re.IGNORECASE)
    if low and values.nominal is not None and values.lower is values.upper is None:
        bound = "lower" if low[0].lower() == "min" else "upper"
        made = made._replace(**{bound: values.nominal})  # type: ignore[arg-type]
    return made


def _together(children: list[Any], *, reference: bool) -> tuple[_Made | Treatment, ...]:
    """The numbers of one part, each with the words that stand before it; words after the last one are its own."""
    made: list[_Made] = []
    words: list[str] = []
    everything: list[_Word] = [child for child in children if isinstance(child, _Word)]
    hardens = any(_HARDENS_A_CASE.search(word.text) for word in everything)
    for child in children:
        if isinstance(child, _Word) and child.sort == "said":
            words.append(child.text)
        elif isinstance(child, _Values):
            made.append(_bare_depth(child, hardens)._replace(words=", ".join(words)))
            words = []
        elif isinstance(child, Hardness | CaseDepth):
            made.append(child._replace(words=", ".join(words)))
            words = []
    if not made:
        text = ", ".join(words)
        if not words or re.fullmatch(r"(?:surface|core|case|tooth|face)(?: hardness)?", text):
            span = (0, 0) if not everything else (everything[0].span[0], everything[-1].span[1])
            raise CalloutError("a hardness without its number", *span, "58-62 HRC")
        return (Treatment(text),)
    if words:
        made[-1] = made[-1]._replace(words=", ".join(filter(None, (made[-1].words, *words))))
    places = next((word for word in everything if word.sort == "places"), None)
    typical = any(word.sort == "typical" for word in everything)
    repeat = Repeat(int(places.text) if places else None if typical else 1, typical)
    reference = reference or any(word.sort == "reference" for word in everything)
    made = [each._replace(repeat=repeat) for each in made]
    if reference:
        if any(isinstance(each, CaseDepth) for each in made):
            raise CalloutError("a case depth in brackets", *made[0].span, "no brackets")
        made = [each._replace(reference=True) for each in made if isinstance(each, Hardness)]
    return tuple(made)


def _bare_depth(values: _Values, hardens: bool) -> CaseDepth:
    """A number after CARBURIZE and the like, without DEEP: a depth, where it can be no hardness."""
    greatest = max(value for value in (values.nominal, values.lower, values.upper) if value is not None)
    if not hardens or (values.unit is None and greatest >= _DEEPEST):
        raise CalloutError("a number without its scale of hardness", *values.span, "58-62 HRC, 0.8 DEEP")
    return CaseDepth(values.nominal, values.lower, values.upper, values.unit, span=values.span)
