"""Surface texture, edges, hardness, tapers, knurls, sheets: what does not read, and what a person sees of it."""

from __future__ import annotations

import pytest

from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context

# (callout, column, length, message). The unit of the sheet is mm.
REFUSED = [
    ("Rp 3", 1, 4, "Rp 3 can be a roughness or a pipe thread"),
    ("Ø25\nN7", 5, 2, "N7 can be a roughness grade or a tolerance class"),
    ("25 Ra 3.2", 1, 2, "a whole number before a mark: a count without its x, or a size"),
    ("Ø25 H7 Ra 1.6 foo", 15, 3, '"foo" does not read here'),
    ("Ra 1.6 min max", 12, 3, '"max" does not read here'),
    ("U Ra 0.8 / L Ra 3.2", 1, 19, "the upper limit is not above the lower one"),
    ("Ra 0", 4, 1, "a texture of 0"),
    ("Ra0 1.6", 1, 4, "a roughness of no sampling length"),
    ("Ra 1.6 mm", 4, 6, "a texture in mm"),
    ("Ra 1.6 µm - 3.2 µin", 4, 16, "two units in one requirement"),
    ("RSm 0.1", 1, 7, "RSm without its unit: µm or mm"),
    ("√63", 2, 2, "63 can be in µm or in µin"),
    ("Ra 63", 1, 5, "63 can be in µm or in µin"),
    ("5 µm", 1, 4, "a number in µm that nothing tells to be a texture: it can be a length, as of a coating"),
    ("√", 1, 1, "a surface texture without its number"),
    ("SURFACE FINISH", 1, 14, "a surface texture without its number"),
    ("HV30", 1, 4, "HV 30 can be a hardness or the test force of one without its number"),
    ("HARDNESS 58-62", 10, 5, "a number without its scale of hardness"),
    ("58-62 MAX HRC", 1, 9, "max or min beside a tolerance"),
    ("60 ±70 HRC", 1, 10, "the lower limit of the hardness is below zero"),
    ("CASE DEPTH 20", 1, 13, "a case 20 mm deep: deeper than any case is"),
    ("58 mm HRC", 7, 3, '"HRC" does not read here'),
    ("60 +4/2 HRC", 4, 4, "a lower deviation without its sign"),
    ("EDGES", 1, 5, "a note on edges without what to do with them"),
    ("BREAK SHARP EDGES 3°", 19, 2, "an angle where a size is meant"),
    ("BREAK SHARP EDGES 0.2 foo", 23, 3, '"foo" does not read here'),
    ("ALL DRAFT ANGLES 3", 18, 1, "a draft without its angle"),
    ("ISO 13715 0.3", 11, 3, '"0.3" does not read here'),
    ("ISO 13715 -0.3/-0.3", 11, 9, "two bounds that are the same"),
    ("TAPER 15°", 7, 3, "a taper by its angle: the included angle, or the angle to the axis"),
    ("2:1", 1, 3, "a taper, or the scale of a drawing as wide as long or wider"),
    ("1:0", 1, 3, "a ratio with 0"),
    ("TAPER 1:20 ±0.1", 12, 1, '"±" does not read here'),
    ("TAPER .002 ±.600 PER FOOT", 7, 4, "the lower limit of the taper is not above zero"),
    ("TAPER SLOPE 1:20", 1, 11, "both a taper and a slope"),
    ("KNURL 33", 1, 8, "a knurl of 33: a pitch, teeth per inch or diametral pitch"),
    ("KNURL DIAMOND 1 2", 17, 1, "a second pitch"),
    ("DIAMOND STRAIGHT KNURL 1", 9, 8, "a second pattern"),
    ("16 GA foo", 7, 3, '"foo" does not read here'),
    ("CORE HARDNESS", 1, 13, "a hardness without its number"),
]


@pytest.mark.parametrize(("callout", "column", "length", "message"), REFUSED, ids=[row[0] for row in REFUSED])
def test_what_does_not_read_is_refused_at_its_place(callout: str, column: int, length: int, message: str) -> None:
    given = answer(callout, Context())
    assert given.error is not None, given.characteristics
    assert (given.error.column, given.error.length, given.error.message) == (column, length, message)
