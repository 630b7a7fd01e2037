"""Forms of holes and cut-outs: the words for them, and what the numbers beside each are."""

from __future__ import annotations

import re

# The forms of holes and cut-outs by the words and symbols for them; the first that matches tells.
FORM_WORDS = (
    ("spotface", r"s[./]?f|s[./-]?face|spot"),
    ("counterdrill", r"drill"),
    ("countersink", r"⌵|sink|sunk|c\.?s'?k|kegelsenkung"),
    ("counterbore", r"⌴|bor|c\.b\.|senkung"),
    ("keyway", r"key|k\.?w"),
    ("slot", r"slot"),
    ("groove", r"groove|u/c|cut|neck|relief|recess"),
)
# Of each form: the kinds of bare numbers in the order in which they stand, and those of numbers with a mark.
FORM_ORDER = {
    "counterbore": ("counterbore diameter", "counterbore depth"),
    "spotface": ("spotface diameter", "spotface depth"),
    "countersink": ("countersink diameter", "countersink depth"),
    "counterdrill": ("counterdrill diameter", "counterdrill depth"),
    "slot": ("slot width", "slot length", "slot depth"),
    "keyway": ("keyway width", "keyway depth", "keyway length"),
    "groove": ("groove width", "groove depth"),
}
FORM_MARKED = {
    ("counterbore", "diameter"): "counterbore diameter",
    ("counterbore", "depth"): "counterbore depth",
    ("spotface", "diameter"): "spotface diameter",
    ("spotface", "depth"): "spotface depth",
    ("countersink", "diameter"): "countersink diameter",
    ("countersink", "depth"): "countersink depth",
    ("countersink", "angle"): "countersink angle",
    ("counterdrill", "diameter"): "counterdrill diameter",
    ("counterdrill", "depth"): "counterdrill depth",
    ("counterdrill", "angle"): "counterdrill angle",
    ("slot", "wide"): "slot width",
    ("slot", "long"): "slot length",
    ("slot", "depth"): "slot depth",
    ("keyway", "wide"): "keyway width",
    ("keyway", "long"): "keyway length",
    ("keyway", "depth"): "keyway depth",
    ("groove", "wide"): "groove width",
    ("groove", "depth"): "groove depth",
    ("groove", "diameter"): "groove diameter",
}
FORM_KINDS = frozenset(FORM_MARKED.values())
FORM_SIGNS = {
    "counterbore": "⌴",
    "spotface": "SF",
    "countersink": "⌵",
    "counterdrill": "CDRILL",
    "slot": "SLOT",
    "keyway": "KEYWAY",
    "groove": "GROOVE",
}
FORM_EXAMPLES = {
    "counterbore": "⌴ Ø14 ↧8",
    "spotface": "SF Ø20 ↧1",
    "countersink": "⌵ Ø14 x 90°",
    "counterdrill": "CDRILL Ø10 ↧4 x 90°",
    "slot": "SLOT 10 WIDE x 40 LONG x 5 DEEP",
    "keyway": "KEYWAY 8 WIDE x 4 DEEP",
    "groove": "GROOVE 3 WIDE x 1.5 DEEP, or 3 x Ø18",
}
_PROCESSES = ("drill", "ream", "bore", "punch", "mill")
_FOREIGN = {"キリ": "drill", "ドリル": "drill", "リーマ": "ream"}


def drill_name(text: str) -> str:
    """A drill's name in one spelling: `#7`, `F`."""
    number = re.search(r"\d+", text)
    if number:
        return f"#{int(number[0])}"
    return re.sub(r'drill|size|letter|ltr|[ ."]', "", text, flags=re.IGNORECASE).upper()


def process_name(word: str) -> str:
    """The process that a word names."""
    typed = word.strip(" .").lower()
    if typed in _FOREIGN:
        return _FOREIGN[typed]
    if "ream" in typed:  # DRILL AND REAM is reamed
        return "ream"
    return next(name for name in _PROCESSES if typed[:2] == name[:2])


def form_of(word: str) -> str:
    """The form that a word or symbol of the grammar names."""
    return next(form for form, pattern in FORM_WORDS if re.search(pattern, word, re.IGNORECASE))


def form_of_kind(kind: str) -> str | None:
    """The form of which a kind is a number: `counterbore` of `counterbore depth`; None where it is of none."""
    return kind.split(" ")[0] if kind in FORM_KINDS else None
