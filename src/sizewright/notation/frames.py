"""One frame from its parts in the order typed: what belongs to the zone, what to a datum, and what contradicts."""

import re
from dataclasses import dataclass, field
from typing import Literal, NamedTuple, cast

from sizewright.notation.datums import DOUBTFUL_DATUMS, number
from sizewright.notation.model import (
    NOWHERE,
    Amount,
    DatumElement,
    DatumReference,
    Frame,
    FrameModifier,
    Portion,
    Span,
)
from sizewright.text.errors import CalloutError


class Part(NamedTuple):
    """A word, letter or bar of a frame: its terminal, its text, where it stands in the callout."""

    type: str
    text: str
    span: Span


class Zone(NamedTuple):
    """The tolerance itself: its width or diameter, its mark, the portion it holds for."""

    amount: Amount
    shape: str
    portion: Portion | None
    span: Span


_CIRCLED = frozenset("MLSRPFTUEI")
_OF_DATUM = frozenset("MLS")
_CONDITIONS = {
    "MMC": "M", "MMR": "M", "MMB": "M", "LMC": "L", "LMR": "L", "LMB": "L", "RFS": "S", "RMB": "S",
}  # fmt: skip
# A boundary is a datum's, a condition a feature's or a datum's (ASME Y14.5).
_BOUNDARIES = frozenset({"MMB", "LMB", "RMB"})
# What may stand after a last condition without making a datum of the letter before it less the last.
_TRAILING = frozenset({"BAR", "FRAME_NOTE", "SCOPE", "INDICATOR"})
_HINT = "|⌖|Ø0.1(M)|A|B|C|"


def build_frame(characteristic: str, parts: list[Zone | Part], span: Span) -> Frame:
    """The frame of `characteristic` (empty for a segment without its mark) with `parts`; `span` is that of its mark.

    Raises:
        CalloutError: a part is missing, stands twice or contradicts another.
    """
    return _Maker(characteristic, parts, span).made()


@dataclass(slots=True)
class _Datum:
    """A datum compartment on its way."""

    elements: list[tuple[str, list[str], Span]]
    modifiers: list[str] = field(default_factory=list)

    def reference(self) -> DatumReference:
        elements = tuple(DatumElement(letter, tuple(mods), span) for letter, mods, span in self.elements)
        return DatumReference(elements, tuple(self.modifiers))


class _Maker:
    """Takes the parts one by one. `opened` is the part that still asks for something: TO, a dash, WITHIN."""

    def __init__(self, characteristic: str, parts: list[Zone | Part], span: Span) -> None:
        self.characteristic = characteristic
        self.span = span
        self.parts = parts
        self.zone: Zone | None = None
        self.modifiers: list[FrameModifier] = []
        self.modifier_span: Span = NOWHERE
        self.datums: list[_Datum] = []
        self.indicator = False
        self.condition_last = False
        self.listed = False  # a comma stands between datums
        self.scope = ""
        self.notes: list[str] = []
        self.opened: Part | None = None
        self.before: Zone | Part | None = None
        self.last_of = ""  # what a modifier would belong to: zone or datum
        for at, part in enumerate(parts):
            self._take(at, part)
            self.before = part

    def made(self) -> Frame:
        if self.opened is not None:
            raise CalloutError(f'nothing after "{self.opened.text}"', *self.opened.span, _HINT)
        if self.zone is None:
            raise CalloutError(f"a {self.characteristic or 'frame'} without its tolerance", *self.span, _HINT)
        shape = cast(Literal["", "diameter", "spherical diameter"], self.zone.shape)
        last = self.parts[-1].span[1]
        return Frame(
            self.characteristic,
            self.zone.amount,
            shape,
            tuple(self.modifiers),
            self.zone.portion,
            tuple(datum.reference() for datum in self.datums),
            self.indicator,
            self.scope,
            tuple(self.notes),
            span=(min(self.span[0], self.zone.span[0]), last),
            modifier_span=self.modifier_span,
            condition_last=self.condition_last,
        )

    # ---- the parts -----------------------------------------------------------------------------------------------

    def _take(self, at: int, part: Zone | Part) -> None:
        if isinstance(part, Zone):
            self._zone(part)
            return
        match part.type:
            case "BAR":
                pass
            case "COMMA":
                self.listed = self.listed or len(self.datums) > 0
                if self.opened is not None:
                    raise CalloutError("a comma with nothing before it", *part.span, _HINT)
            case "WITHIN" | "TO" | "DASH":
                self._open(part)
            case "DATUM_WORD":
                self.opened = part
            case "DATUM" | "OLD_DATUM":
                self._datum(part)
            case "COMMON_DATUM":
                letters = re.findall("[A-Z]", part.text.upper())
                self._new_datum(_Datum([(letter, [], part.span) for letter in letters]))
            case "AND" if self.listed and self.last_of == "datum":
                pass  # A, B AND C is a list; A AND B can be a common datum
            case "AND":
                raise CalloutError(
                    "datums joined by a word: a common datum, or one after the other",
                    *part.span,
                    "A-B for a common datum, A|B for one after the other",
                )
            case "CIRCLED":
                self._circled(part)
            case "BARE_MODIFIER":
                self._modifier(part.text.upper(), None, part)
            case "CONDITION":
                self._condition(at, part)
            case "PROJECTED" | "UNEQUAL":
                self._measured(part)
            case _:
                self._word(part)

    def _open(self, part: Part) -> None:
        both = {part.type, self.opened.type if self.opened else ""}
        if self.opened is not None and both != {"TO", "WITHIN"} and self.opened.type != "WITHIN":
            raise CalloutError(f'nothing after "{self.opened.text}"', *self.opened.span, _HINT)
        if part.type == "DASH" and self.last_of != "datum":
            raise CalloutError("a dash that joins no datums", *part.span, "A-B")
        if part.type == "WITHIN" and self.zone is not None:
            raise CalloutError("a second tolerance", *part.span, "one tolerance for a frame")
        self.opened = part

    def _zone(self, zone: Zone) -> None:
        if self.zone is not None:
            raise CalloutError("a second number in a frame", *zone.span, "one tolerance; (P) before a projected height")
        if self.opened is not None and self.opened.type in ("DASH", "DATUM_WORD"):
            raise CalloutError("a number where a datum is meant", *zone.span, "A-B")
        self.zone, self.opened, self.last_of = zone, None, "zone"

    def _datum(self, part: Part) -> None:
        letter = part.text.strip("- ").upper()
        element = (letter, list[str](), part.span)
        if self.opened is not None and self.opened.type == "WITHIN":
            raise CalloutError("a datum where a tolerance is meant", *part.span, "WITHIN 0.1 TO A")
        if self.opened is not None and self.opened.type == "DASH":
            self.datums[-1].elements.append(element)
            self.opened, self.last_of = None, "datum"
            return
        self._check_not_modifier(letter, part)
        self._new_datum(_Datum([element]))

    def _new_datum(self, datum: _Datum) -> None:
        self.datums.append(datum)
        self.opened, self.last_of = None, "datum"

    def _check_not_modifier(self, letter: str, part: Part) -> None:
        """`Ø.010 M A B`, `|0.1|M|A|`: a letter after the zone may be its modifier without its circle."""
        if letter not in DOUBTFUL_DATUMS or self.datums or self.zone is None or part.type != "DATUM":
            return
        apart = isinstance(self.before, Part) and self.before.type == "BAR"
        settled = apart and letter != "P" and any(each.name in "MLS" for each in self.modifiers)  # one condition
        if self.opened is None and not settled:
            raise CalloutError(
                f"{letter} after the tolerance can be a modifier or a datum",
                *part.span,
                f"({letter}) for the modifier, TO {letter} for the datum",
            )

    # ---- modifiers -----------------------------------------------------------------------------------------------

    def _circled(self, part: Part) -> None:
        name = part.text.strip("( )").upper()
        if name not in _CIRCLED:
            raise CalloutError(
                f"({name}) is no modifier that is held here",
                *part.span,
                "(M), (L), (S), (P) 20, (F), (T), (U) 0.1; a datum without brackets",
            )
        if name == "E":
            raise CalloutError("(E) belongs to a size, not to a geometric tolerance", *part.span, "(E) after the size")
        if name == "I":
            raise CalloutError("(I) belongs to a size, not to a geometric tolerance", *part.span, "(I) after the size")
        self._modifier(name, None, part)

    def _condition(self, at: int, part: Part) -> None:
        word = re.sub(r"[^A-Z]", "", part.text.upper().removeprefix("AT"))[-3:]
        name = _CONDITIONS[word]
        rest = [each.type if isinstance(each, Part) else "ZONE" for each in self.parts[at + 1 :]]
        last = all(each in _TRAILING for each in rest)
        if word in _BOUNDARIES and self.last_of != "datum":
            raise CalloutError(f"{word} belongs to a datum", *part.span, f"{word[0]}MC for the feature")
        at_end = self.last_of == "datum" and last and word not in _BOUNDARIES
        if at_end and self.zone is not None and not any(each.name in "MLS" for each in self.modifiers):
            self.condition_last = True
            self._add(FrameModifier(name), part)
        else:
            self._modifier(name, None, part)

    def _measured(self, part: Part) -> None:
        """A modifier with a length after it: `(P) 25`, `(U) 0.1`, `UZ-0.2`."""
        name = "P" if part.type == "PROJECTED" else "U" if part.text.startswith("(") else part.text[:2].upper()
        found = re.search(r"(?P<sign>[+-])? ?(?P<number>[\d.,]*\d) ?(?P<unit>mm|in|\")?", part.text, re.IGNORECASE)
        amount = None
        if found is not None:
            span = (part.span[0] + found.start("number"), part.span[0] + found.end("number"))
            unit = {"mm": "mm", "in": "inch", '"': "inch"}.get((found["unit"] or "").lower())
            amount = number(found["number"], span, unit, may_be_zero=name != "P")
            if found["sign"] == "-":
                amount = Amount(-amount.value, amount.form, amount.unit, span)
        if amount is None and name in ("U", "UZ"):
            raise CalloutError(f"{part.text} without its amount", *part.span, "(U) 0.1, UZ+0.1")
        if self.zone is None:
            raise CalloutError("a modifier before its tolerance", *part.span, _HINT)
        if self.datums:
            raise CalloutError(f"{part.text} after the datums", *part.span, f"after the tolerance: {_HINT}")
        self._add(FrameModifier(name, amount), part)

    def _modifier(self, name: str, amount: Amount | None, part: Part) -> None:
        """A modifier of what stands before it: the zone, or a datum in its own compartment."""
        if self.last_of == "" or self.opened is not None:
            raise CalloutError("a modifier with nothing before it", *part.span, _HINT)
        if self.last_of == "zone":
            self._add(FrameModifier(name, amount), part)
            return
        if isinstance(self.before, Part) and self.before.type == "BAR":
            raise CalloutError("a modifier in a compartment of its own", *part.span, "|B(M)|")
        if name not in _OF_DATUM:
            raise CalloutError(f"({name}) after a datum", *part.span, "(M) or (L) after a datum")
        datum = self.datums[-1]
        grouped = isinstance(self.before, Part) and self.before.type == "COMMON_DATUM"
        own = datum.modifiers if grouped or datum.modifiers else datum.elements[-1][1]
        if own:
            raise CalloutError("a second modifier on one datum", *part.span, "B(M)")
        own.append(name)

    def _add(self, modifier: FrameModifier, part: Part) -> None:
        if any(each.name == modifier.name for each in self.modifiers):
            raise CalloutError(f"{part.text} twice", *part.span, "each modifier once")
        clash = {each.name for each in self.modifiers} & _OF_DATUM
        if clash and modifier.name in _OF_DATUM:
            raise CalloutError(f"({clash.pop()}) and ({modifier.name}) on one tolerance", *part.span, "one of them")
        if modifier.name in _OF_DATUM:
            self.modifier_span = part.span
        self.modifiers.append(modifier)

    # ---- words ---------------------------------------------------------------------------------------------------

    def _word(self, part: Part) -> None:
        match part.type:
            case "INDICATOR":
                self.indicator = True
            case "SCOPE":
                if self.scope:
                    raise CalloutError("a second scope", *part.span, "ALL AROUND, or BETWEEN X AND Y")
                self.scope = _scope(part.text)
            case "DATUM_WORD_AFTER":
                if self.last_of != "datum":
                    raise CalloutError(f"{part.text} with no datum before it", *part.span, "A[CF]")
                self.datums[-1].elements[-1][1].append(part.text.strip("[]").upper())
            case "ZONE_WORD":
                self._zone_word(part)
            case "MOST":
                if self.last_of != "zone":
                    raise CalloutError("MAX with no tolerance before it", *part.span, "FLATNESS 0.05 MAX")
            case _:
                self.notes.append(" ".join(part.text.lower().split()))

    def _zone_word(self, part: Part) -> None:
        if self.zone is None:
            raise CalloutError("a modifier before its tolerance", *part.span, _HINT)
        name = " ".join(part.text.upper().strip("<>(). ").split()) or "><"
        self._add(FrameModifier({"△": "DYNAMIC", "∆": "DYNAMIC"}.get(name, name)), part)


def _scope(text: str) -> str:
    words = " ".join(text.lower().replace("-", " ").split()) if text[:3].lower() == "all" else ""
    if words:
        return words
    letters = re.findall(r"(?<![A-Za-z])[A-Z]\d?(?![A-Za-z])", text.upper().replace("BETWEEN", "").replace("AND", " "))
    return f"between {letters[0]} and {letters[1]}"
