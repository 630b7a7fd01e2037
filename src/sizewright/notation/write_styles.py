"""How drawing practices write numbers and marks."""

from typing import Literal, NamedTuple

Unit = Literal["mm", "inch"]


class Style(NamedTuple):
    """How one drawing practice writes (ISO 129-1 and ISO 14405-1; ASME Y14.5)."""

    comma: bool  # decimal comma, for millimetres
    inch_zero: bool  # a zero before the mark of an inch size below one
    signed_zero: bool  # a zero deviation in inches keeps its sign and its places
    high_first: bool  # of two limits the upper one stands first, with a stroke between them
    times: str
    bounds: dict[str, str]
    thickness: str


STYLES = {
    "iso": Style(True, True, False, True, "x", {"max": "max.", "min": "min."}, "t="),
    "asme": Style(False, False, True, False, "X", {"max": "MAX", "min": "MIN"}, "THK "),
}
