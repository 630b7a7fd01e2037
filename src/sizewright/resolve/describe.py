"""A characteristic in plain words, and the size to aim for."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.text.numbers import Number, add, as_decimal, half_of, places, plain

_ANGLE_PLACES_READ = 3
UNIT_WORDS = {
    "mm": "mm",
    "inch": "in",
    "deg": "°",
    "um": "µm",
    "uin": "µin",
    "none": "",
    "ratio": "",
    "inch_per_foot": "in a foot",
    "diametral_pitch": "diametral pitch",
}
_SIDED = {
    ("diameter", "internal"): "hole diameter",
    ("diameter", "external"): "shaft diameter",
    ("thread", "internal"): "internal thread",
    ("thread", "external"): "external thread",
}
_TO_MEASURE_FROM = ("datum feature", "datum target")
_STATUS_WORDS = {
    Status.REFERENCE: "reference: for information, no verdict",
    Status.BASIC: "basic: exact, no verdict of its own",
    Status.UNTOLERANCED: "no limits: nothing typed gives them, no verdict",
    Status.CONFLICT: "contradiction: no limits given, no verdict",
    Status.UNREAD: "not read",
}


def unit_shown(unit: str) -> str:
    """A unit in a column or a name of its own: `inch` and `deg` as words, the others as they are read aloud."""
    return unit if unit in ("inch", "deg") else UNIT_WORDS.get(unit, unit)


def angle_words(value: Number) -> str:
    """An angle as it is set on a protractor: decimal where that is short and exact, else degrees and minutes."""
    exact = Fraction(value)
    decimal = as_decimal(exact)
    if Fraction(decimal) == exact and places(decimal) <= _ANGLE_PLACES_READ:
        return f"{plain(decimal)}°"
    seconds = round(abs(exact) * 3600, 3)
    whole, seconds = divmod(seconds, 60)
    degrees, minutes = divmod(whole, 60)
    text = f"{'-' if exact < 0 else ''}{degrees}°{minutes}'"
    return f'{text}{plain(as_decimal(seconds))}"' if seconds else text


def shown(limits: Limits) -> tuple[str | None, str | None]:
    """The bounds as text, as drawings write limits: both with the same number of decimal places."""
    _, lower, upper = limits
    if isinstance(lower, Decimal) and isinstance(upper, Decimal):
        finer = max(places(lower), places(upper))
        return plain(lower, finer), plain(upper, finer)
    return None if lower is None else plain(lower), None if upper is None else plain(upper)


def with_unit(value: Number | str, unit: str) -> str:
    """A number with its unit as it is read aloud: `6.5 mm`, `45°`."""
    word = UNIT_WORDS.get(unit, unit)
    if word == "°" and not isinstance(value, str):
        return angle_words(value)
    number = value if isinstance(value, str) else plain(value)
    return f"{number}{word}" if word == "°" else f"{number} {word}".rstrip()


def describe(made: Characteristic) -> str:
    """What is to be measured, in words: `hole diameter 6.6 mm, 4 places`."""
    words = _SIDED.get((made.kind, made.side or ""), made.kind)
    if "parameter" in made.extra:
        words += f" {made.extra['parameter']}"
    thread = made.extra.get("thread")
    if isinstance(thread, dict):
        words += f" {designation(thread)}"
    elif "zone_shape" in made.extra:
        words += f" {frame_words(made)}"
    elif made.kind in _TO_MEASURE_FROM:
        words += f" {made.extra['label']}"
    elif made.nominal is not None:
        words += f" {with_unit(made.nominal, made.unit)}"
    if made.class_ and not isinstance(thread, dict):
        words += f" {made.class_}"
    if made.count is None and made.kind not in ("general tolerance", "units note", "note"):
        words += ", typical: everywhere it occurs"
    elif made.count is not None and made.count > 1:
        words += f", {made.count} places"
    return words


def in_short(made: Characteristic) -> str:
    """What is to be measured and between which limits, on one line: `hole diameter 25 mm H7, 25.000 to 25.021`."""
    words = describe(made)
    if made.status in (Status.REFERENCE, Status.BASIC):
        return f"{words}, {made.status.value}"
    if made.size is None or made.kind == "thread" or made.size.of == "zone":
        return words
    lower, upper = shown(made.size)
    if made.nominal is None:
        lower, upper = (
            (lower, with_unit(upper, made.unit)) if upper is not None else (with_unit(lower or "", made.unit), None)
        )
    if lower is None or upper is None:
        return f"{words}, {upper} at most" if lower is None else f"{words}, {lower} at least"
    return f"{words}, {lower} to {upper}"


def frame_words(made: Characteristic) -> str:
    """A geometric tolerance as it is read aloud: `Ø0.2 mm (M) to A, B(M), C`."""
    mark = {"diameter": "Ø", "sphere": "SØ"}.get(str(made.extra["zone_shape"]), "")
    zone = made.limits[0].upper if made.limits else None
    text = mark + with_unit(zone if zone is not None else "", made.unit)
    if "per_unit" in made.extra:
        text += f" per {made.extra['per_unit']}"
    for modifier in _texts(made, "modifiers"):
        name, _, amount = modifier.partition(" ")
        text += f" ({name}{f' {amount}' if amount else ''})"
    datums = _texts(made, "datums")
    if datums:
        text += f" to {', '.join(datums)}"
    if "scope" in made.extra:
        text += f", {made.extra['scope']}"
    return text + (f", segment {made.extra['segment']}" if "segment" in made.extra else "")


def _texts(made: Characteristic, key: str) -> list[str]:
    found = made.extra.get(key)
    return [str(each) for each in found] if isinstance(found, list) else []


def designation(thread: dict[str, object]) -> str:
    """A resolved thread as its standard writes it: `M10x1.5-6H`, `1/4-20 UNC-2B-LH`, `G1/2A`."""
    form, size, class_ = str(thread["form"]), str(thread["size"]), thread.get("class")
    lead = thread.get("lead")
    match form:
        case "M" | "MJ":
            text = f"{form}{size}x" + (f"Ph{lead}P{thread['pitch']}" if lead else f"{thread['pitch']}")
        case "Tr":
            text = f"Tr{size}x" + (f"{lead}(P{thread['pitch']})" if lead else f"{thread['pitch']}")
        case "G" | "R" | "Rc" | "Rp":
            text = f"{form}{size}{class_ or ''}"
        case _:
            text = f"{size}-{thread['tpi']} {form}"
    if class_ and form not in ("G", "R", "Rc", "Rp"):
        text += f"-{class_}"
    starts = thread.get("starts")
    if isinstance(starts, int) and starts > 1 and not lead:
        text += f" ({starts} starts)"
    return text + ("-LH" if thread.get("hand") == "left" else "")


def status_words(made: Characteristic) -> str:
    """Why a characteristic has no verdict, or an empty text where it has limits."""
    if made.kind == "thread" and made.status is Status.UNTOLERANCED:
        return "no limits held here for this thread, no verdict"
    if made.kind in _TO_MEASURE_FROM:
        return "it tells what is measured from: nothing to measure, no verdict"
    return _STATUS_WORDS.get(made.status, "")


def aim(limits: Limits) -> Number | None:
    """The middle of the tolerance, exact; None where only one bound is given. Of a zone nothing at all is best."""
    if limits.of == "zone":
        return limits.lower
    if limits.lower is None or limits.upper is None:
        return None
    return half_of(add(limits.lower, limits.upper))
