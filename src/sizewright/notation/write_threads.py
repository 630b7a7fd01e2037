"""Writing threads: from the model to the designation of each standard, and the words after it."""

from __future__ import annotations

from decimal import Decimal

from sizewright.notation.model import Amount, Standing, Thread
from sizewright.text.numbers import plain

_INCH_NAMES = {"Acme": "ACME", "Stub Acme": "STUB ACME"}
_HANDS = {"left": "LH", "right": "RH"}


def write_thread(thread: Thread, times: str, *, comma: bool) -> str:
    """The text of a thread; `times` stands between diameter and pitch, `comma` tells metric decimals with a comma."""
    if thread.form in ("M", "MJ", "Tr"):
        text = _metric(thread, times)
        text = text.replace(".", ",") if comma else text
    elif thread.form in ("UN", "Acme", "Stub Acme"):
        text = _inch(thread)
    else:
        text = _pipe(thread)
    if thread.classes and thread.form not in ("G", "NPT", "NPTF"):
        text += f"-{'/'.join(thread.classes)}"
    if thread.engagement:
        text += f"-{thread.engagement}"
    if thread.hand:
        text += f"-{_HANDS[thread.hand]}"
    text += "".join(f" {word}" for word in _words(thread))
    return f"({text})" if thread.standing is Standing.REFERENCE else text


def _metric(thread: Thread, times: str) -> str:
    text = f"{thread.form}{thread.size}"
    if thread.pitch is None:
        return text
    if thread.lead is None:
        return f"{text}{times}{plain(thread.pitch)}"
    if thread.form == "Tr":
        return f"{text}{times}{plain(thread.lead)}(P{plain(thread.pitch)})"
    return f"{text}{times}Ph{plain(thread.lead)}P{plain(thread.pitch)}"


def _inch(thread: Thread) -> str:
    name = _INCH_NAMES.get(thread.form, thread.series)
    if thread.pitch is not None and thread.lead is not None:
        turns = f"-{_bare(thread.pitch)}P-{_bare(thread.lead)}L"
    else:
        turns = f"-{plain(thread.tpi)}" if thread.tpi is not None else ""
    size = thread.size.removeprefix("0") if thread.size.startswith("0.") else thread.size
    if not name and not thread.classes and ("/" not in size or len(turns) < 3):
        name = "" if size.startswith("#") and len(turns) == 3 else "TPI"  # 10-32 alone is limits too
    return f"{size}{turns} {name}".rstrip()


def _bare(value: Decimal) -> str:
    return plain(value).removeprefix("0")


def _pipe(thread: Thread) -> str:
    class_ = "".join(thread.classes)
    turns = f"-{plain(thread.tpi)}" if thread.tpi is not None else ""
    if not thread.form.startswith("NPT"):
        # A bare R is a radius too, and Rp with a whole number a roughness.
        named = thread.form == "R" or (thread.form == "Rp" and "/" not in thread.size)
        prefix = f"ISO 7 {thread.form}" if named else thread.form
        return f"{prefix} {thread.size}{turns}{' ' + class_ if class_ else ''}"
    return f"{thread.size}{turns} {thread.form}{'-' + class_ if class_ else ''}"


def _words(thread: Thread) -> list[str]:
    words = [f"({thread.starts} STARTS)"] if thread.starts else []
    if thread.engaged is not None:
        words.append(f"LE {_length(thread.engaged)}")
    if thread.side:
        words.append("INT" if thread.side == "internal" else "EXT")
    if thread.through:
        words.append(thread.through.upper().replace("THROUGH", "THRU"))
    words += [word.upper() for word in (*thread.insert.split("; "), *thread.finish.split("; ")) if word]
    return words + [note.upper() for note in thread.notes]


def _length(amount: Amount) -> str:
    return plain(amount.value) + {"mm": " mm", "inch": '"', None: ""}[amount.unit]
