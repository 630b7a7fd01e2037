"""Look-alike characters, folded to one form each, with the way back to the text as typed.

People type what the keyboard gives them. The grammars know one character for each meaning; this table turns the
others into it and remembers where every folded character came from, so that an error points at the original text.
Code points: Unicode character names; the look-alikes are common practice.
"""

import re
import unicodedata
from typing import NamedTuple

from sizewright.text.errors import CalloutError

MAX_LENGTH = 2000

# Invisible characters part what they stand between: two figures about one are not one number.
_INVISIBLE = "\u00ad\u200b\u200c\u200d\u2060\ufeff"
_SAME = {
    "Ø": "⌀øΦφϕɸ∅⊘Фф\U0001d719",
    "-": "−–—‐‑‒―﹣",
    "'": "′’‘´`ʹ",
    '"': "″”“„ʺ",
    "°": "º˚",
    "x": "×✕⨯✖хХ",
    "±": "∓",
    " ": "\t\u00a0\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u3000" + _INVISIBLE,
    "/": "⁄∕",
    "↧": "↓⤓",
    "□": "▢",
    "⌢": "⏜",
    "u": "µμ",
    "⌴": "⎵⊔凵",
    "⌵": "∨",
    "[": "⟦",
    "]": "⟧",
}
_WORDS = {
    "<MOD-DIAM>": "Ø",
    "<MOD-PM>": "±",
    "<MOD-DEG>": "°",
    "%%C": "Ø",  # control codes of texts that are taken from a drawing's file
    "%%P": "±",
    "%%D": "°",
}
_CIRCLED = {chr(0x24B6 + i): f"({chr(0x41 + i)})" for i in range(26)}
_TABLE = {char: form for form, chars in _SAME.items() for char in chars} | _CIRCLED
# Compatibility forms that are the same character in other clothes, by their tag in the Unicode data.
_FORMS = frozenset({"<wide>", "<narrow>", "<noBreak>", "<font>", "<fraction>", "<compat>"})
_LETTER_O = re.compile(r"(?<=\d)[Oo](?=[xX]\d|(?![A-Za-z]))|(?<![A-Za-z])[Oo](?=[.,]\d)|(?<=\d[.,])[Oo](?![A-Za-z])")
# Most texts hold nothing to fold: plain characters without <, % and `, and the marks to which others are folded.
_AS_IT_IS = re.compile(rf"[ -$&-;=-_a-~{''.join(form for form in _SAME if not form.isascii())}]*")
_LINE_END = re.compile(r"\r\n?|\u2028|\u2029|\x0b|\x0c")


class Source(NamedTuple):
    """A text as typed and as folded; `places[i]` is the offset in `typed` of folded character `i` (None: the same)."""

    typed: str
    folded: str
    places: tuple[int, ...] | None
    letter_o: tuple[int, ...]

    def at(self, offset: int) -> int:
        """The offset in the text as typed of the folded character at `offset` (its end, at the end)."""
        if self.places is None:
            return offset
        return self.places[offset] if offset < len(self.places) else len(self.typed)

    def span(self, start: int, end: int) -> tuple[int, int]:
        """The folded stretch `start:end` as a stretch of the text as typed."""
        if self.places is None:
            return start, end
        return self.at(start), (self.at(end - 1) + 1 if end > start else self.at(start))


def fold(typed: str) -> Source:
    """Fold `typed`; letters O that stand for the figure 0 are changed and their offsets kept in `letter_o`.

    Raises:
        CalloutError: the text is too long or holds a control character.
    """
    if len(typed) > MAX_LENGTH:
        raise CalloutError(
            f"a callout of {len(typed)} characters is too long; {MAX_LENGTH} is the most", MAX_LENGTH, MAX_LENGTH
        )
    if _AS_IT_IS.fullmatch(typed) and "  " not in typed:
        folded, places = typed, None
    else:
        folded, places = _fold_each(typed)
    letters = tuple(match.start() for match in _LETTER_O.finditer(folded)) if "O" in folded or "o" in folded else ()
    if letters:
        folded = _LETTER_O.sub("0", folded)
    source = Source(typed, folded, places, ())
    return Source(typed, folded, places, tuple(source.at(i) for i in letters)) if letters else source


def _fold_each(typed: str) -> tuple[str, tuple[int, ...]]:
    text = _LINE_END.sub(lambda match: "\n" * len(match[0]), typed)
    folded: list[str] = []
    places: list[int] = []
    skip = 0
    for i, char in enumerate(text):
        if skip:
            skip -= 1
            continue
        word = next((w for w in _WORDS if char in "<%" and text[i : i + len(w)].upper() == w), None)
        form = _WORDS[word] if word else _fold_one(char, i)
        skip = len(word) - 1 if word else 0
        if form[:1] == " " and folded and folded[-1][-1:] == " ":
            form = form[1:]  # single blanks only
        if len(form) > 1 and "/" in form and text[i + 1 : i + 2].isdigit():
            form += " "  # 1½0 is not 1 1/20
        if form:
            folded.append(form)
            places.extend([i] * len(form))
    return "".join(folded), tuple(places)


def _fold_one(char: str, offset: int) -> str:
    form = _TABLE.get(char)
    if form is not None:
        return form
    if char == "\n" or (char.isascii() and char.isprintable()):
        return char
    category = unicodedata.category(char)
    if category in ("Cc", "Cs", "Cf"):
        raise CalloutError(f"control character U+{ord(char):04X} in the callout", offset, offset + 1, "delete it")
    sort = unicodedata.decomposition(char).partition(" ")[0]
    if sort not in _FORMS:
        return char  # a superscript or a circled figure is no figure: the grammar refuses it where it stands
    plain = unicodedata.normalize("NFKC", char)
    if sort == "<compat>" and any(each.isdigit() for each in plain):
        return char  # a figure in brackets or with a point is a list's number
    if sort == "<fraction>":  # a vulgar fraction stands apart from the figure before it
        return " " + plain.replace("⁄", "/")
    return "".join(_TABLE.get(each, each) for each in plain) if plain.isprintable() and plain.strip() else " "
