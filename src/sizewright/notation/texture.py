"""Surface texture: the rules of `texture.lark`, and how requirements and the words about them go together."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cache
from typing import Any, Literal

from sizewright.notation.amounts import decimal
from sizewright.notation.build import span_of
from sizewright.notation.grammar import make_parser
from sizewright.notation.model import Repeat, Span
from sizewright.notation.model_surfaces import Texture, TextureUnit
from sizewright.notation.parser import Parser
from sizewright.notation.parsing import moved, read_whole
from sizewright.notation.tokens import Token
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import add, plain

WORDS = {
    "PARAMETER": "Ra, Rz or another parameter", "PARAMETER_AFTER": "", "NUMBER": "a number", "UM": "µm", "UIN": "µin",
    "MM": "", "PERCENT": "", "GRADE": "N7", "MARK": "√", "BAND": "", "RELATION": "", "BOUND_WORD": "max or min",
    "RANGE": "-", "GRADE_STROKE": "", "STROKE": "/", "PLUS_MINUS": "±", "COMMA": "", "SEMICOLON": "", "LINE": "",
    "AND": "", "COLON": "", "LPAR": "", "RPAR": ")", "LBOX": "", "RBOX": "]", "SCOPE": "ALL OVER", "PROCESS": "",
    "STANDARD": "", "FILLER": "", "REMOVAL": "MRR", "RULE": "", "BASIC_RULE": "", "LAY": "a lay", "ALLOWANCE": "",
    "PLACES": "", "EXCEPTIONS": "", "TYPICAL": "TYP", "REFERENCE": "", "$END": "the end",
}  # fmt: skip
_PARTS = re.compile(
    r"(?:(?P<side>[UL]) ?-? ?)?(?P<name>R(?:mr|sm|sk|ku|pk|vk|max|3z|[azqtvykp])|W[atz]|S[aqz])(?P<lengths>\d{1,2})?"
    r"(?P<at> ?\( ?[^)]*\))?(?: ?(?P<bound>max|min)\.?)? ?:?",
    re.IGNORECASE,
)
_SPELLING = {"rsm": "RSm", "r3z": "R3z", "rms": "RMS", "aa": "AA", "cla": "CLA", "aarh": "AARH"}
_UNITS: dict[str, TextureUnit] = {"UM": "um", "UIN": "uin", "MM": "mm", "PERCENT": "%"}
_LAYS = {
    "=": "parallel", "∥": "parallel", "⊥": "perpendicular", "⟂": "perpendicular", "x": "crossed",
    "m": "multi-directional", "multidirectional": "multi-directional", "c": "circular", "r": "radial",
    "p": "particulate",
}  # fmt: skip
_WITHOUT_UNIT = ("Rsk", "Rku")

# Two bounds of a texture further apart than this are more likely two things.
_WIDEST = 32
# A tolerance below this share of the number: no texture is measured so closely (common practice).
_FINEST = 10


@dataclass(slots=True, eq=False, repr=False)
class _Word:
    """A word about all requirements of the part: its sort, its text in one spelling, where it stands."""

    sort: str
    text: str
    span: Span


@dataclass(slots=True, eq=False, repr=False)
class _Values:
    """One or two numbers with what stands between and after them."""

    numbers: list[tuple[Decimal, TextureUnit | None]]
    between: str = ""
    bound: str = ""
    span: Span = (0, 0)


@dataclass(slots=True, eq=False, repr=False)
class _Required:
    """A requirement; `bare` where a number stands alone, so that a mark or a word has to tell what it is."""

    texture: Texture
    side: Literal["U", "L", ""] = ""
    bare: bool = False
    span: Span = field(default=(0, 0))


class TextureBuilder:
    """Rules of `texture.lark`."""

    def unit(self, children: list[Token]) -> Token:
        return children[0]

    def values(self, children: list[Any]) -> _Values:
        made = _Values([], span=span_of(*children))
        for token in children:
            if token.type == "NUMBER":
                made.numbers.append((decimal(token.rstrip("."), span_of(token)), None))
            elif token.type in _UNITS:
                made.numbers[-1] = (made.numbers[-1][0], _UNITS[token.type])
            elif token.type == "BOUND_WORD":
                made.bound = token[:3].lower()
            else:
                made.between = {"PLUS_MINUS": "±", "GRADE_STROKE": "/"}.get(token.type, "-")
        return made

    def named(self, children: list[Any]) -> _Required:
        tokens = {child.type: child for child in children if isinstance(child, Token)}
        parts = _PARTS.fullmatch(tokens["PARAMETER"])
        assert parts is not None
        if parts["lengths"] and not int(parts["lengths"]):
            hint = "Ra8 for the roughness of 8 sampling lengths, a blank before a value"
            raise CalloutError("a roughness of no sampling length", *span_of(tokens["PARAMETER"]), hint)
        values: _Values = children[-1]
        name = _spelt(parts["name"])
        bounds = [str(word)[:3].lower() for word in (parts["bound"], tokens.get("BOUND_WORD"), values.bound) if word]
        made = Texture(
            name + (parts["at"] or "").replace(" ", ""),
            lengths=int(parts["lengths"]) if parts["lengths"] else None,
            band=tokens["BAND"].replace(" ", "").rstrip("/").replace(",", ".") if "BAND" in tokens else "",
        )
        side: Literal["U", "L", ""] = "U" if parts["side"] in ("U", "u") else "L" if parts["side"] else ""
        return _required(made, values, bounds, tokens.get("RELATION"), span_of(*children), side)

    def named_after(self, children: list[Any]) -> _Required:
        values = next(child for child in children if isinstance(child, _Values))
        tokens = {child.type: child for child in children if isinstance(child, Token)}
        made = Texture(_spelt(tokens["PARAMETER_AFTER"].replace(".", "")))
        late = next((unit for sort, unit in _UNITS.items() if sort in tokens), None)
        if late is not None:
            values.numbers = [(number, unit or late) for number, unit in values.numbers]
        bounds = [values.bound, str(tokens.get("BOUND_WORD", ""))[:3].lower()]
        return _required(made, values, bounds, tokens.get("RELATION"), span_of(*children), "")

    def bare(self, children: list[Any]) -> _Required:
        values: _Values = children[-1]
        relation = children[0] if isinstance(children[0], Token) else None
        required = _required(Texture(), values, [values.bound], relation, span_of(*children), "")
        required.bare = True
        return required

    def grade(self, children: list[Token]) -> _Required:
        names = ["N" + token[1:].strip() for token in children if token.type == "GRADE"]
        span = span_of(*children)
        if len(names) == 2 and names[0] == names[1]:
            raise CalloutError("the same grade twice", *span, "N6-N8, or one grade")
        names.sort(key=lambda name: int(name[1:]))
        return _Required(Texture(grade="-".join(names), span=span), span=span)

    def mark(self, children: list[Token]) -> _Word:
        return _Word("mark", "", span_of(children[0]))

    def said(self, children: list[Token]) -> _Word:
        token = children[0]
        text = " ".join(token.lower().split())
        if token.type == "STANDARD":
            text = text.upper().replace("ANSI ", "ASME ")
            text = f"ASME {text}" if text.startswith("B46") else text
        return _Word("said", _spelt_scope(text), span_of(token))

    def filler(self, children: list[Token]) -> _Word:
        return _Word("filler", children[0].lower(), span_of(children[0]))

    def removal(self, children: list[Token]) -> _Word:
        text = children[0].lower()
        if text == "mrr" or ("required" in text and "not" not in text):
            sort = "required"
        elif text == "apa" or "any" in text or "optional" in text:
            sort = "any"
        else:
            sort = "prohibited"
        return _Word("removal", sort, span_of(children[0]))

    def rule(self, children: list[Token]) -> _Word:
        text = children[0].lower()
        return _Word("rule", "max" if "max" in text else "16 %" if "16" in text else "median", span_of(children[0]))

    def lay(self, children: list[Token]) -> _Word:
        text = re.sub(r"^lay ?[:=]? ?", "", children[0].lower()) or "="
        return _Word("lay", _LAYS.get(text, text), span_of(children[0]))

    def allowance(self, children: list[Token]) -> _Word:
        text = re.sub(r"^.*allowance ?[:=]? ?", "", children[0].lower()).replace(",", ".")
        number = re.match(r"[\d.]+", text)
        assert number is not None
        unit = {"mm": " mm", "": ""}.get(text[number.end() :].strip(), '"')
        return _Word("allowance", plain(decimal(number[0], span_of(children[0]))) + unit, span_of(children[0]))

    def places(self, children: list[Token]) -> _Word:
        figure = re.search(r"\d+", children[0])
        assert figure is not None
        return _Word("places", figure[0], span_of(children[0]))

    def typical(self, children: list[Token]) -> _Word:
        return _Word("typical", "", span_of(children[0]))

    def reference(self, children: list[Token]) -> _Word:
        return _Word("reference", "", span_of(children[0]))

    def texture(self, children: list[Any]) -> tuple[Texture, ...]:
        items = [child for child in children if isinstance(child, _Required | _Word)]
        return _together(items, reference=False)

    def reference_texture(self, children: list[Any]) -> tuple[Texture, ...]:
        items = [child for child in children if isinstance(child, _Required | _Word)]
        return _together(items, reference=True)


@cache
def _parser() -> Parser:
    return make_parser(("texture", "terminals", "words"), ("texture",), TextureBuilder())


def read_texture(text: str, offset: int) -> tuple[Texture, ...]:
    """The requirements of `text`, which stands at `offset` in the callout.

    Raises:
        CalloutError: it does not read, or can be something else too (Rp 3 is a pipe thread).
    """
    pipe = re.match(r"\(? ?Rp ?(\d+)(?![\d.,]| ?(?:u|max))", text, re.IGNORECASE)
    if pipe:
        raise moved(
            CalloutError(
                f"Rp {pipe[1]} can be a roughness or a pipe thread",
                *pipe.span(),
                f"Rp {pipe[1]} µm for the roughness, ISO 7 Rp {pipe[1]} for the thread",
            ),
            offset,
        )
    made: tuple[Texture, ...] = read_whole(_parser(), text, "texture", offset, WORDS)
    return tuple(each._replace(span=(each.span[0] + offset, each.span[1] + offset)) for each in made)


# ---- one requirement -------------------------------------------------------------------------------------------------


def _spelt(name: str) -> str:
    return _SPELLING.get(name.lower(), name[0].upper() + name[1:].lower())


def _spelt_scope(text: str) -> str:
    text = re.sub(r"^unless? (?:otherwise )?(\w+)", r"unless otherwise \1", text)
    text = re.sub(r"^u\.?o\.?s\.?", "unless otherwise specified", text)
    return re.sub(r"^(?:fao|f\.a\.o\.)", "all over", text)


def _required(
    made: Texture,
    values: _Values,
    bounds: list[str],
    relation: Token | None,
    span: Span,
    side: Literal["U", "L", ""],
) -> _Required:
    """A requirement with its bounds: a number alone is the upper one (ISO 1302, ASME Y14.36)."""
    units = {unit for _, unit in values.numbers if unit}
    if len(units) > 1:
        raise CalloutError("two units in one requirement", *values.span, "one unit")
    if units & {"mm"} and made.parameter != "RSm":
        raise CalloutError("a texture in mm", *values.span, "µm or µin")
    if ("%" in units) is not made.parameter.startswith("Rmr"):
        raise CalloutError("a share of material is in %, and nothing else is", *values.span, "Rmr(0.5) 70 %, Ra 1.6")
    words = {bound for bound in bounds if bound}
    low, high = (relation or "")[:1] in ("≥", ">"), (relation or "")[:1] in ("≤", "<")
    if len(words) > 1 or (low and "max" in words) or (high and "min" in words):
        raise CalloutError("both an upper and a lower bound on one number", *span, "Ra 0.4-0.8, or Ra 0.8 max")
    numbers = [number for number, _ in values.numbers]
    made = made._replace(unit=next(iter(units), None), rule="max" if "max" in words else None, span=span)
    if any(number == 0 for number in numbers) and made.parameter not in _WITHOUT_UNIT:
        raise CalloutError("a texture of 0", *values.span, "a number above 0")
    if len(numbers) == 2:
        return _Required(_pair(made, numbers, values, side, {*words, *(["min"] if low else [])}), side, span=span)
    if side == "L" or low or "min" in words:
        if side == "U":
            raise CalloutError("an upper limit with a MIN", *span, "U Ra 3.2 / L Ra 0.8")
        if "max" in words:  # L Ra max: the acceptance rule, on a lower limit
            made = made._replace(rule="max")
        return _Required(made._replace(lower=numbers[0]), side, span=span)
    return _Required(made._replace(upper=numbers[0]), side, span=span)


def _pair(made: Texture, numbers: list[Decimal], values: _Values, side: str, words: set[str]) -> Texture:
    if side or "min" in words:
        raise CalloutError("two numbers on one bound", *values.span, "U Ra 3.2 / L Ra 0.8")
    one, two = numbers
    if values.between == "±" and two * _FINEST < one:
        raise CalloutError(
            "a tolerance this fine is a size's, not a texture's", *values.span, "a line for each, or Ra 25"
        )
    if values.between == "±":
        lower, upper = add(one, -two), add(one, two)
        assert isinstance(lower, Decimal)
        assert isinstance(upper, Decimal)
        if lower < 0:
            raise CalloutError("the lower limit of the texture is below zero", *values.span, "a smaller tolerance")
        return made._replace(lower=lower, upper=upper)
    if one == two:
        raise CalloutError("two bounds that are the same", *values.span, "Ra 0.4-0.8, or one number")
    if values.between == "/" and max(one, two) > _WIDEST * min(one, two):
        raise CalloutError(
            "bounds this far apart can be a size and a texture", *values.span, "a line for each, or U Ra 25 / L Ra 0.4"
        )
    return made._replace(lower=min(one, two), upper=max(one, two))


# ---- all of a part ---------------------------------------------------------------------------------------------------


def _together(items: list[_Required | _Word], *, reference: bool) -> tuple[Texture, ...]:
    """The requirements of one part, each with the words that are said of them all."""
    required = [item for item in items if isinstance(item, _Required)]
    words = [item for item in items if isinstance(item, _Word)]
    sorts = {word.sort for word in words}
    whole = (min(item.span[0] for item in items), max(item.span[1] for item in items))
    if not required:
        if "all over" not in {word.text for word in words} and "removal" not in sorts:
            raise CalloutError("a surface texture without its number", *whole, "Ra 1.6, or FINISH ALL OVER")
        required = [_Required(Texture(span=whole), span=whole)]
    for each in required:
        if each.bare and each.texture.unit is None and len(required) > 1:
            raise CalloutError(
                "a number beside a texture: a second one, or a size", *each.span, "Ra before it, or a line of its own"
            )
        told = sorts & {"mark", "filler"} or any(word.sort == "said" for word in words)
        if each.bare and each.texture.unit is None and not told:
            raise CalloutError("a number that nothing tells to be a texture", *each.span, "Ra 1.6, or √ before it")
    about = Texture(
        rule=_one(words, "rule"),  # type: ignore[arg-type]
        removal=_one(words, "removal"),  # type: ignore[arg-type]
        lay=_one(words, "lay") or "",
        allowance=_one(words, "allowance") or "",
        words=tuple(dict.fromkeys(word.text for word in words if word.sort == "said")),
        repeat=_repeat(words),
        reference=reference or "reference" in sorts,
    )
    return tuple(_with(each.texture, about) for each in _joined(required))


def _with(texture: Texture, about: Texture) -> Texture:
    return about._replace(
        parameter=texture.parameter,
        lower=texture.lower,
        upper=texture.upper,
        unit=texture.unit,
        grade=texture.grade,
        lengths=texture.lengths,
        rule=texture.rule or about.rule,
        band=texture.band,
        span=texture.span,
    )


def _one(words: list[_Word], sort: str) -> str | None:
    found = [word for word in words if word.sort == sort]
    if len({word.text for word in found}) > 1:
        raise CalloutError(f"a second {sort}", *found[-1].span, f"one {sort}")
    return found[0].text if found else None


def _repeat(words: list[_Word]) -> Repeat:
    places = _one(words, "places")
    typical = any(word.sort == "typical" for word in words)
    if places is not None and int(places) == 0:
        raise CalloutError("a count of 0", *next(word.span for word in words if word.sort == "places"))
    count = int(places) if places is not None else None if typical else 1
    return Repeat(count, typical)


def _joined(required: list[_Required]) -> list[_Required]:
    """An upper and a lower bound of one parameter after each other are one requirement: U Ra 3.2 / L Ra 0.8."""
    made: list[_Required] = []
    for each in required:
        before = made[-1] if made else None
        if before is not None and {before.side, each.side} == {"U", "L"} and _of_one(before.texture, each.texture):
            made[-1] = _Required(_both(before, each), "", span=(before.span[0], each.span[1]))
        else:
            made.append(each)
    return made


def _of_one(one: Texture, two: Texture) -> bool:
    return (one.parameter, one.lengths, one.band, one.rule) == (two.parameter, two.lengths, two.band, two.rule) and (
        one.unit == two.unit or None in (one.unit, two.unit)
    )


def _both(one: _Required, two: _Required) -> Texture:
    lower = one.texture.lower if one.texture.lower is not None else two.texture.lower
    upper = one.texture.upper if one.texture.upper is not None else two.texture.upper
    assert lower is not None
    assert upper is not None
    span = (one.span[0], two.span[1])
    if lower >= upper:
        raise CalloutError("the upper limit is not above the lower one", *span, "U Ra 3.2 / L Ra 0.8")
    return one.texture._replace(lower=lower, upper=upper, unit=one.texture.unit or two.texture.unit, span=span)
