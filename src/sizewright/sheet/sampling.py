"""The title block's `sampling:` entry, how many pieces are checked, and the size of the lot in its `lot:` entry.

A rule is one scheme for all lines, or one for each class of characteristic (`critical all, major II 0.65, minor 5`),
parted by commas. A scheme is `all`, a number of pieces, a share of the lot, or a level and an AQL of ISO 2859-1.
Text in quotation marks is a remark and no rule.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple, NoReturn

from sizewright.sheet.drafts import CLASSES
from sizewright.sheet.near import did_you_mean, near, quoted
from sizewright.standards.sampling import STANDARD, USUAL_LEVEL, Inspection, aqls, near_aqls
from sizewright.text.errors import CalloutError
from sizewright.text.fold import Source, fold

OTHERS = "others"
MOST_LOT = 1_000_000
EXAMPLES = 'what would read: "all", "5 pieces", "II 1.0" (level and AQL), "critical all, major II 0.65, minor 5"'


@dataclass(frozen=True, slots=True)
class Whole:
    """Every piece."""


class Count(NamedTuple):
    """So many pieces; the lot is accepted on `ac` nonconforming ones (None: nothing typed)."""

    pieces: int
    ac: int | None = None


class Share(NamedTuple):
    """A share of the lot, above 0 and below 1; `words` as typed: `every 10th`, `10 %`."""

    share: Fraction
    words: str


class ByAql(NamedTuple):
    """Inspection level and AQL (per cent nonconforming) of ISO 2859-1; the level may be the usual one, not typed."""

    level: str
    aql: Decimal
    inspection: Inspection = "normal"
    level_typed: bool = True


Scheme = Whole | Count | Share | ByAql


@dataclass(frozen=True, slots=True)
class SamplingRule:
    """One scheme for each class named; `others` is the scheme of the lines whose class is not named, or None.

    `remark` is the text of a rule that is a quoted remark alone: it says nothing of how many pieces.
    """

    by_class: dict[str, Scheme] = field(default_factory=dict)
    others: Scheme | None = None
    remark: str = ""


_LOT = re.compile(r"[1-9][0-9]*")
_PIECES = r"(?:pieces?|pcs?\.?|parts?)"
_SIZED_LOT = re.compile(rf"(?:.*(?:, | of |\(|[^0-9 ,.] ))?([1-9][0-9]*) {_PIECES}\)?", re.IGNORECASE)
_NAMED_LOT = re.compile(r"(?P<name>.*\S) of ([1-9][0-9]*)", re.IGNORECASE)


def lot_size(value: str) -> int | None:
    """The number of pieces in a lot, from its title-block entry; None where the text does not tell it.

    `500`, `500 pieces`, `L-204, 500 pieces` and `L-204 of 500` tell it. A number that begins with 0, or above
    1 000 000, is a lot's name (a date, say); `2 of 5` may count lots.
    """
    text = " ".join(value.split())
    named = _NAMED_LOT.fullmatch(text)
    if _LOT.fullmatch(text):
        digits = text
    elif sized := _SIZED_LOT.fullmatch(text):
        digits = sized[1]
    elif named and not named["name"].isdecimal():
        digits = named[2]
    else:
        return None
    return int(digits) if len(digits) <= len(str(MOST_LOT)) and int(digits) <= MOST_LOT else None


class _Word(NamedTuple):
    """A word of the rule and where it stands in the folded text."""

    text: str
    start: int
    end: int


@dataclass(slots=True)
class _Part:
    """What stands between two commas, without the class it begins with."""

    class_: _Word | None
    words: list[_Word]


_QUOTED = re.compile(r'\s*(["\'])(.*)\1\s*')
_PARTED = re.compile(r"[,;](?![0-9])|(?<![0-9])[,;]")
_WORD = re.compile(r"[^\s:=]+")
_OTHERS = ("others", "other", "rest")
_CLASS_WORDS = (*CLASSES, *_OTHERS)


def read_sampling(value: str) -> SamplingRule:
    """Read a sampling rule.

    Raises:
        CalloutError: it does not read; the position is in `value`.
    """
    source = fold(value)
    if _QUOTED.fullmatch(source.folded):
        return SamplingRule(remark=value.strip()[1:-1].strip())
    reader = _Reader(source)
    by_class: dict[str, Scheme] = {}
    others: Scheme | None = None
    for part in reader.parts():
        name = part.class_.text.lower() if part.class_ else OTHERS
        name = OTHERS if name in _OTHERS else name
        if name in by_class or (name == OTHERS and others is not None):
            place = part.class_ or part.words[0]
            what = f"{quoted(name)} stands" if part.class_ else "a rule for lines of any class stands"
            reader.refuse(place.start, place.end, f"{what} twice", "one of the two has to go")
        scheme = reader.scheme(part)
        if name == OTHERS:
            others = scheme
        else:
            by_class[name] = scheme
    return SamplingRule(by_class, others)


_STANDARD = re.compile(r"(?:iso)?2859(?:-1)?|iso", re.IGNORECASE)
_YEAR = re.compile(r"(?:19|20)[0-9]{2}")
_LEVEL = re.compile(r"s-?[1-4]|i{1,3}", re.IGNORECASE)
_NUMBER = re.compile(r"(?:aql)?([0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)%?", re.IGNORECASE)
_FILLING = ("level", "general", "special", "inspection", "single", "sampling", "plan", "aql", "%")
_INSPECTIONS: dict[str, Inspection] = {"normal": "normal", "tightened": "tightened"}
_NOT_HELD = ("reduced", "double", "multiple", "sequential")
_AQL_WORDS = ("aql", "level", *_INSPECTIONS, *_NOT_HELD)
_KNOWN = (*_CLASS_WORDS, *_FILLING, *_INSPECTIONS, "all", "every", "pieces", "ISO")

_ALL = re.compile(rf"100 ?%|every (?:piece|part)|all(?: {_PIECES})?|full(?: inspection)?", re.IGNORECASE)
_COUNT = re.compile(rf"([0-9]+)(?: {_PIECES})?(?: per lot)?(?: ac ?([0-9]+))?", re.IGNORECASE)
_PIECES_TYPED = re.compile(rf"[0-9]+ {_PIECES}(?![a-z])", re.IGNORECASE)
_EVERY = re.compile(rf"every ([0-9]+)(?:st|nd|rd|th)(?: {_PIECES})?", re.IGNORECASE)
_ONE_IN = re.compile(rf"1 (?:in|of)(?: every)? ([0-9]+)(?: {_PIECES})?", re.IGNORECASE)
_PERCENT = re.compile(r"([0-9]+(?:[.,][0-9]+)?) ?%(?: of the lot)?", re.IGNORECASE)


class _Reader:
    """Reads one rule; places are in its folded text until an error is raised."""

    def __init__(self, source: Source) -> None:
        self._source = source
        self._text = source.folded

    def refuse(self, start: int, end: int, message: str, hint: str) -> NoReturn:
        raise CalloutError(message, *self._source.span(start, end), hint)

    def parts(self) -> list[_Part]:
        """The rule's parts; one that only goes on with level, AQL or inspection belongs to the part before it."""
        parts: list[_Part] = []
        start = 0
        for end in (*(match.start() for match in _PARTED.finditer(self._text)), len(self._text)):
            words = [_Word(m[0], m.start(), m.end()) for m in _WORD.finditer(self._text, start, end)]
            class_ = words.pop(0) if words and words[0].text.lower() in _CLASS_WORDS else None
            if class_ is None and not words:
                self.refuse(start, end, "nothing stands beside the comma", EXAMPLES)
            if class_ is None and parts and self._goes_on(parts[-1], words):
                parts[-1].words += words
            else:
                parts.append(_Part(class_, words))
            start = end + 1
        return parts

    def _goes_on(self, before: _Part, words: Sequence[_Word]) -> bool:
        if not _by_aql(before.words) or not _by_aql(words):
            return False
        if all(word.text.lower() in _INSPECTIONS for word in words):
            if before.class_ is not None:
                message = f"it is not clear for which classes {quoted(words[0].text)} is"
                hint = f'beside each class it is for: "{before.class_.text} {words[0].text} II 1.0"'
                self.refuse(words[0].start, words[-1].end, message, hint)
            return True
        return not _numbers(before.words)

    def scheme(self, part: _Part) -> Scheme:
        """The scheme that a part tells."""
        if not part.words:
            assert part.class_ is not None
            message = f"nothing tells how many pieces are checked for {quoted(part.class_.text)}"
            self.refuse(part.class_.start, part.class_.end, message, f'as in "{part.class_.text} all"')
        if _by_aql(part.words):
            return self._aql(part.words)
        return self._counted(part.words)

    def _counted(self, words: Sequence[_Word]) -> Scheme:
        start, end = words[0].start, words[-1].end
        matches = [(form, form.match(self._text, start, end)) for form in (_ALL, _EVERY, _ONE_IN, _PERCENT, _COUNT)]
        found = [(form, match) for form, match in matches if match]
        form, match = next(((f, m) for f, m in found if m.end() == end), (None, None))
        if form is None or match is None:
            reached = max((m.end() for _, m in found), default=start)
            word = next((word for word in words if word.end > reached), words[-1])
            self._unknown(word)
        if form is _ALL:
            return Whole()
        number = Fraction(match[1].replace(",", "."))
        if not number:
            self.refuse(*match.span(1), "no piece at all would be checked", EXAMPLES)
        if form is _COUNT:
            return self._count(match)
        share = number / 100 if form is _PERCENT else 1 / number
        if share > 1:
            self.refuse(*match.span(1), "more than the whole lot", 'at most "100 %"')
        return Whole() if share == 1 else Share(share, match[0])

    def _count(self, match: re.Match[str]) -> Count:
        pieces, ac = match[1], match[2]
        if len(pieces.lstrip("0")) > len(str(MOST_LOT)) or int(pieces) > MOST_LOT:
            self.refuse(*match.span(1), f"{MOST_LOT} pieces are the most", EXAMPLES)
        if ac is not None and (len(ac) > len(pieces) or int(ac) >= int(pieces)):
            self.refuse(*match.span(2), f"{ac} of {pieces} pieces nonconforming would be accepted", 'as in "13 Ac 0"')
        return Count(int(pieces), None if ac is None else int(ac))

    def _aql(self, words: Sequence[_Word]) -> ByAql:
        level: str | None = None
        aql: Decimal | None = None
        inspection: Inspection | None = None
        numbers = _numbers(words)
        for index, word in enumerate(words):
            text = word.text.lower()
            if text in _NOT_HELD:
                message = f"{text} sampling is not held, only single plans, normal and tightened"
                self.refuse(word.start, word.end, message, 'as in "II 1.0" or "tightened II 1.0"')
            elif text in _INSPECTIONS and inspection is None:
                inspection = _INSPECTIONS[text]
            elif _LEVEL.fullmatch(text) and level is None:
                level = text.upper() if "-" in text or text[0] != "s" else f"S-{text[1]}"
            elif word in numbers and aql is None:
                aql = self._held(word)
            elif text not in _FILLING and not _of_standard(words, index):
                self._unknown(word)
        if aql is None:
            self.refuse(words[-1].end, words[-1].end, "no AQL stands here", f'as in "{level or USUAL_LEVEL} 1.0"')
        return ByAql(level or USUAL_LEVEL, aql, inspection or "normal", level is not None)

    def _held(self, word: _Word) -> Decimal:
        match = _NUMBER.fullmatch(word.text)
        assert match is not None
        aql = Decimal(match[1].replace(",", "."))
        held = next((each for each in aqls() if each == aql), None)
        if held is None:
            start = word.start + match.start(1)
            message = f"AQL {match[1]} is not in the tables held of {STANDARD}"
            self.refuse(start, word.start + match.end(1), message, did_you_mean(list(near_aqls(aql))))
        return held

    def _unknown(self, word: _Word) -> NoReturn:
        meant = [each for each in near(word.text, _KNOWN) if each.lower() != word.text.lower()]
        hint = did_you_mean(meant) or EXAMPLES
        if word.text.lower() in _CLASS_WORDS:
            hint = f"a comma parts the classes; {EXAMPLES}"
        self.refuse(word.start, word.end, f"{quoted(word.text)} does not read in a sampling rule here", hint)


def _numbers(words: Sequence[_Word]) -> list[_Word]:
    """The words that are numbers and no part of a standard's."""
    return [w for n, w in enumerate(words) if _NUMBER.fullmatch(w.text) and not _of_standard(words, n)]


def _of_standard(words: Sequence[_Word], index: int) -> bool:
    """Whether a word is a standard's number, or the year that follows it."""
    if _STANDARD.fullmatch(words[index].text):
        return True
    return index > 0 and bool(_STANDARD.fullmatch(words[index - 1].text) and _YEAR.fullmatch(words[index].text))


def _by_aql(words: Sequence[_Word]) -> bool:
    """Whether words speak of a standard's level or AQL."""
    texts = [word.text.lower() for word in words]
    if _PIECES_TYPED.match(" ".join(texts)):
        return False  # also 2859 of them
    return any(
        text in _AQL_WORDS or text.startswith("aql") or _STANDARD.fullmatch(text) or _LEVEL.fullmatch(text)
        for text in texts
    )
