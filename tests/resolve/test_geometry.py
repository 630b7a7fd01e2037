"""Geometric tolerances and datums: what a frame typed in any manner comes to.

Rows without a source are the typing of drawing offices and shops, common practice; meanings after ISO 1101 and
ASME Y14.5.
"""

from __future__ import annotations

from typing import Any

import pytest

from sizewright.resolve.answer import answer, answer_json
from sizewright.resolve.context import Context
from sizewright.resolve.geometry_rules import RULES

# callout, then each frame as `count kind shape zone | modifiers | datums | segment, portion, scope`.
FRAMES = [
    ("|⌖|Ø0.05|A|B|C|", "1 position diameter 0.05 | | A B C |"),
    ("⌖ ⌀0.1 Ⓜ | A | B Ⓜ | C", "1 position diameter 0.1 | M | A B(M) C |"),
    ("[⌖][Ø0.1 (M)][A][B][C]", "1 position diameter 0.1 | M | A B C |"),
    ("│⌖│Ø0,1│A│", "1 position diameter 0.1 | | A |"),
    ("| position | Ø0.05 (M) | A | B |", "1 position diameter 0.05 | M | A B |"),
    ("4X |⌖|Ø.010(M)|A|B|C|", "4 position diameter 0.010 | M | A B C |"),
    ("4 X ⟂ 0.1 A", "4 perpendicularity two planes 0.1 | | A |"),
    ("4x ⏥ 0.1", "4 flatness two planes 0.1 | | |"),
    ("|⌖|Ø0.1|A|B| 4 PLACES", "4 position diameter 0.1 | | A B |"),
    ("|⌖|Ø0.1|A|B| (4X)", "4 position diameter 0.1 | | A B |"),
    ("|⌖|Ø0.1|A|B| TYP", "None position diameter 0.1 | | A B |"),
    ("|⌖|Ø0.1M|A|", "1 position diameter 0.1 | M | A |"),
    ("|⌖|Ø0.1 M|A|", "1 position diameter 0.1 | M | A |"),
    ("|⌖|A|B|C|Ø.010(M)|", "1 position diameter 0.010 | M | A B C |"),  # Y14.5 before 1982
    ("|⌖|-A-|-B-|Ø.010(M)|", "1 position diameter 0.010 | M | A B |"),
    ("|⌖|SØ0.1|A|", "1 position sphere 0.1 | | A |"),
    ("|⌖|Ø0.1|(A-B)(M)|C|", "1 position diameter 0.1 | | (A-B)(M) C |"),
    ("|⌖|Ø0.1(M)|A(M)-B(M)|", "1 position diameter 0.1 | M | A(M)-B(M) |"),
    ("|⌖|Ø0.1|A[CF]|", "1 position diameter 0.1 | | A[CF] |"),
    ("|⌖|Ø0(M)|A|", "1 position diameter 0 | M | A |"),
    ("⌖ Ø0.5 Ⓟ 25 A B", "1 position diameter 0.5 | P 25 | A B |"),
    ("⌖ ⌀0.1 Ⓟ10 Ⓜ | A |", "1 position diameter 0.1 | P 10, M | A |"),
    ("(+) Ø0.2 A B", "1 position diameter 0.2 | | A B |"),
    ("O/ 0.2 TRUE POSITION A", None),
    ("POSITION O/.010 TO A", "1 position diameter 0.010 | | A |"),
    ("POSITION WITHIN DIA .010 TO A B C", "1 position diameter 0.010 | | A B C |"),
    ("POSITION WITHIN DIA .010 TO A B C AT MMC", "1 position diameter 0.010 | M | A B C |"),
    ("POSITION WITHIN DIA .010\nTO A B C AT MMC", "1 position diameter 0.010 | M | A B C |"),
    ("TRUE POSITION .010 DIA AT MMC RELATIVE TO DATUM A", "1 position diameter 0.010 | M | A |"),
    ("TRUE POSITION WITHIN .010 DIA TO DATUMS A, B AND C", "1 position diameter 0.010 | | A B C |"),
    ("POS Ø.014 MMC TO A, B, C", "1 position diameter 0.014 | M | A B C |"),
    ("T.P. WITHIN .010 DIA", "1 position diameter 0.010 | | |"),
    ("⌖ Ø.005 RFS A B", "1 position diameter 0.005 | S | A B |"),
    ("FLAT WITHIN .002", "1 flatness two planes 0.002 | | |"),
    ("FLATNESS: 0.05 MAX", "1 flatness two planes 0.05 | | |"),
    ("MUST BE FLAT WITHIN .002", "1 flatness two planes 0.002 | | |"),
    ("0.05 FLATNESS", "1 flatness two planes 0.05 | | |"),
    ("⏥ 0.1/25x25", "1 flatness two planes 0.1 | | | per 25x25"),
    ("FLATNESS .002/1.00", "1 flatness two planes 0.002 | | | per 1.00"),
    ("|⏤|0.05/100|", "1 straightness two lines 0.05 | | | per 100"),
    ("|-|0.05|", "1 straightness two lines 0.05 | | |"),
    ("⏤ Ø0.04 (M)", "1 straightness diameter 0.04 | M | |"),
    ("|O|0.02|", "1 roundness two circles 0.02 | | |"),
    ("/O/ 0.02", "1 cylindricity two cylinders 0.02 | | |"),
    ("SQUARE TO A WITHIN .003", "1 perpendicularity two planes 0.003 | | A |"),
    ("perp 0.05 a", "1 perpendicularity two planes 0.05 | | A |"),
    ("_|_ 0.05 A", "1 perpendicularity two planes 0.05 | | A |"),
    ("⟂ 0.1 (T) A", "1 perpendicularity two planes 0.1 | T | A |"),
    ("PARALLEL TO A WITHIN .002", "1 parallelism two planes 0.002 | | A |"),
    ("PARALLEL WITHIN .002 TO -A-", "1 parallelism two planes 0.002 | | A |"),
    ("// 0.05 A", "1 parallelism two planes 0.05 | | A |"),
    ("CONCENTRIC TO A WITHIN .005 TIR", "1 concentricity not told 0.005 | | A |"),
    ("COAX Ø0.02 A-B", "1 concentricity diameter 0.02 | | A-B |"),
    ("SYM 0.1 TO A", "1 symmetry two planes 0.1 | | A |"),
    ("RUNOUT .001 FIM", "1 circular run-out full indicator movement 0.001 | | |"),
    ("RUNOUT .003 MAX TO A-B", "1 circular run-out full indicator movement 0.003 | | A-B |"),
    (".002 TIR TO A", "1 circular run-out full indicator movement 0.002 | | A |"),
    ("TIR .002", "1 circular run-out full indicator movement 0.002 | | |"),
    ("⌰ 0.05 A - B", "1 total run-out full indicator movement 0.05 | | A-B |"),
    ("↗↗ 0.05 A", "1 total run-out full indicator movement 0.05 | | A |"),
    ("PROFILE OF A SURFACE 0.5 ALL AROUND", "1 surface profile two profile surfaces 0.5 | | | all around"),
    ("|⌓|.020|A|B| BETWEEN C AND D", "1 surface profile two profile surfaces 0.020 | | A B | between C and D"),
    ("⌓ 0.5 A X↔Y", "1 surface profile two profile surfaces 0.5 | | A | between X and Y"),
    ("⌓ 0.4 Ⓤ 0.1 A", "1 surface profile two profile surfaces 0.4 | U 0.1 | A |"),
    ("⌓ 0.4 UZ-0.1 A", "1 surface profile two profile surfaces 0.4 | UZ -0.1 | A |"),
    ("|⌓|0.5|A|B| ALL OVER", "1 surface profile two profile surfaces 0.5 | | A B | all over"),
    ("|⏥|0.05| |//|0.1|A|", "1 flatness two planes 0.05 | | | ; 1 parallelism two planes 0.1 | | A |"),
    (
        "|⌖|Ø0.8(M)|A|B|C|\n|Ø0.25(M)|A|",
        "1 position diameter 0.8 | M | A B C | 1 of 2; 1 position diameter 0.25 | M | A | 2 of 2",
    ),
    (
        "|⌖|Ø0.8(M)|A|B|\n|⌖|Ø0.25(M)|A|",
        "1 position diameter 0.8 | M | A B | 1 of 2; 1 position diameter 0.25 | M | A | 2 of 2",
    ),
    ("|⌖|Ø0.1|A|\n|⟂|0.05|B|", "1 position diameter 0.1 | | A |; 1 perpendicularity two planes 0.05 | | B |"),
]  # fmt: skip


def told(callout: str) -> str | None:
    given = answer_json(answer(callout, Context()))
    if given["error"]:
        return None
    return "; ".join(_frame(made) for made in given["characteristics"] if "zone_shape" in made)


def _frame(made: dict[str, Any]) -> str:
    (limits,) = made["limits"]
    assert limits["of"] == "zone"
    assert limits["lower"] == "0"
    more = [made.get("segment"), f"per {made['per_unit']}" if "per_unit" in made else None, made.get("scope")]
    return (
        f"{made['count']} {made['kind']} {made['zone_shape']} {limits['upper']} | {', '.join(made['modifiers'])} | "
        f"{' '.join(made['datums'])} | {' '.join(str(m) for m in more if m)}"
    )


@pytest.mark.parametrize(("callout", "expected"), FRAMES, ids=[row[0] for row in FRAMES])
def test_a_frame_says_what_it_says(callout: str, expected: str | None) -> None:
    given = told(callout)
    assert (expected and expected.replace(" ", "")) == (given and given.replace(" ", ""))


# What must stay what it was, with a frame's words or marks near it: (callout, kinds).
APART = [
    ("(25)", ["length"]),
    ("[25]", ["length"]),
    ("|25|", ["length"]),
    ("[R5]", ["radius"]),
    ("[A]", ["datum feature"]),
    ("|A|", ["datum feature"]),
    ("-A-", ["datum feature"]),
    ("DATUM B", ["datum feature"]),
    ("▲ A", ["datum feature"]),
    ("Ø12/A1", ["datum target"]),
    ("10x20/B2", ["datum target"]),
    ("DATUM TARGET A1", ["datum target"]),
    ("Ø25 h6 -A-", ["diameter", "datum feature"]),
    ("Ø25 h6 (DATUM A)", ["diameter", "datum feature"]),
    ("Ø25 H7 [B]", ["diameter", "datum feature"]),
    ("SQUARE 12", ["square"]),
    ("12 SQ", ["square"]),
    ("|⌖|Ø0.1|A|B|\nØ10 ±0.1", ["position", "diameter"]),
    ("|⌖|Ø0.1|A|\n[Ø60]", ["position", "diameter"]),
    ("|⌖|Ø0.1|A|\n-B-", ["position", "datum feature"]),
    ("Ø12.7 ±0.1 |⌖|Ø0.1(M)|A|B|", ["diameter", "position"]),
    ("25 ±0.1 0.05 FLAT", ["length", "flatness"]),
]


@pytest.mark.parametrize(("callout", "kinds"), APART, ids=[row[0] for row in APART])
def test_frames_take_nothing_from_their_neighbours(callout: str, kinds: list[str]) -> None:
    given = answer(callout, Context())
    assert given.error is None
    assert [made.kind for made in given.characteristics] == kinds


def test_a_count_before_a_size_holds_for_the_frame_under_it() -> None:
    given = answer("4x Ø10 ±0.1\n|⌖|Ø0.2(M)|A|B|C|", Context())
    assert [made.count for made in given.characteristics] == [4, 4]


def test_a_count_after_the_frame_holds_for_the_size_before_it() -> None:
    given = answer("Ø10 ±0.1 |⌖|Ø0.1|A|B| (4X)", Context())
    assert [made.count for made in given.characteristics] == [4, 4]


# Worked examples: callout, unit, what its reasons must say, source.
CONDITIONS = [
    # Goodheart-Willcox, GD&T: Application and Interpretation (2021), p. 300: .625 less .024 is .601.
    (".625 +.010/-.000 DIA THRU |⌖|Ø.024(M)|A|", "inch", "virtual condition 0.601 in"),
    # Slides on Y14.5M-1994: pin 15 / 14.85, straightness 0.1 (M), virtual condition 15.1, zone 0.25 at 14.85.
    ("Ø15 0/-0.15 |⏤|Ø0.1(M)|", "mm", "if it is a shaft or tab: virtual condition 15.1 mm"),
    ("Ø15 0/-0.15 |⏤|Ø0.1(M)|", "mm", "up to 0.25 at 14.85"),
    # Own arithmetic by the rules of ASME Y14.5.
    ("Ø10 +0.2/0 THRU |⌖|Ø0.3(M)|A|", "mm", "virtual condition 9.7 mm, resultant condition 10.7 mm (internal)"),
    ("Ø10 +0.2/0 THRU |⌖|Ø0.3(L)|A|", "mm", "virtual condition 10.5 mm, resultant condition 9.5 mm (internal)"),
    # The feature right above the frame: a slot; two frames below each other have the same; the second feature.
    ("SLOT 10 ±0.1 x 40\n|⌖|0.2(M)|A|", "mm", "virtual condition 9.7 mm, resultant condition 10.5 mm (internal)"),
    ("Ø10 +0.2/0 THRU\n|⌖|Ø0.3(M)|A|\n|⟂|Ø0.1(M)|A|", "mm", "virtual condition 9.9 mm, resultant condition 10.5 mm"),
    ("Ø10 ±0.1 THRU\n|⌖|Ø0.2(M)|A|\nKEYWAY 4 ±0.05 x 2\n|⌖|0.3(M)|B|", "mm", "virtual condition 3.65 mm"),
    ("M6-6H\n|⌖|Ø0.2(M)|A|\nØ10 +0.2/0 THRU\n|⌖|Ø0.3(M)|A|", "mm", "virtual condition 9.7 mm"),
    ("Ø20 h6 |⟂|Ø0(M)|A|", "mm", "virtual condition 20.000 mm, resultant condition 19.974 mm (external)"),
]


@pytest.mark.parametrize(("callout", "unit", "said"), CONDITIONS)
def test_the_size_before_a_frame_gives_its_virtual_condition(callout: str, unit: str, said: str) -> None:
    given = answer(callout, Context(unit))  # type: ignore[arg-type]
    assert said in " ".join(given.characteristics[-1].why)


@pytest.mark.parametrize(
    "callout",
    [
        "|⌖|Ø0.3(M)|A|",
        "Ø10 |⌖|Ø0.3(M)|A|",
        "Ø10 ±0.1; Ø12 ±0.1; |⌖|Ø0.3(M)|A|",
        "Ø10 ±0.1 THRU\n4x SLOT 8 ±0.2 x 20\n|⌖|0.3(M)|B|",
        "Ø10 ±0.1 THRU\n|⌖|Ø0.2(M)|A|\n⌴ Ø16 ±0.2 ↧5\n|⌖|Ø0.3(M)|B|",
        "Ø10 ±0.1 |⌖|Ø0.3|A|",
    ],
)
def test_no_virtual_condition_where_it_is_not_settled(callout: str) -> None:
    given = answer(callout, Context())
    assert "virtual" not in " ".join(given.characteristics[-1].why)


# Read, with a warning: (callout, manner, said).
WARNED = [
    ("⌖ Ø0.2", "iso", "position without a datum"),
    ("⟂ 0.1", "iso", "perpendicularity without a datum"),
    ("RUNOUT .001 FIM", "iso", "circular run-out without a datum"),
    ("|⌖|Ø0.1|O|", "iso", "datum O: I, O and Q are not used"),
    ("|⌖|Ø0.2(P)|A|", "iso", "(P) without its height"),
    ("POSITION WITHIN DIA .010 TO A B C AT MMC", "iso", "not for datum C; C(M) for the datum"),
    ("CONC TO A WITHIN .005 TIR", "iso", "TIR or FIM beside concentricity"),
    ("◎ Ø0.1(M) A", "asme", "ASME Y14.5 has no (M) or (L) on concentricity"),
    ("⌖ 25 A", "iso", "a zone of 25 mm is very wide"),
    ("|⌖|Ø0.2|A|\n|⌖|Ø0.2|B|", "asme", "no tighter than the one above it"),
    ("|⌖|Ø0.8|A|B|\n|Ø0.25|B|", "asme", "repeat the first ones above it"),
]  # fmt: skip


# ASME Y14.5-2009, 7.6.4 and 7.7.2: concentricity and symmetry only regardless of feature size; ISO 2692 has both (M)
NOT_IN_ASME = {"concentricity", "symmetry"}


@pytest.mark.parametrize("kind", RULES)
def test_material_modifiers_that_one_practice_alone_has(kind: str) -> None:
    assert RULES[kind].material_doubtful("asme") is (kind in NOT_IN_ASME)
    assert not RULES[kind].material_doubtful("iso")


@pytest.mark.parametrize(("callout", "manner", "said"), WARNED)
def test_what_is_odd_is_read_with_a_warning(callout: str, manner: str, said: str) -> None:
    given = answer(callout, Context(manner=manner))  # type: ignore[arg-type]
    assert given.error is None
    assert any(remark.level == "warning" and said in remark.text for remark in given.remarks)


def test_segments_in_two_units_are_not_held_against_each_other() -> None:
    given = answer("|⌖|Ø.02in|A|\n|⌖|Ø0.1mm|A|", Context())  # 0.1 mm is tighter than .02 in, which is 0.508 mm
    assert given.error is None
    assert not any("no tighter" in remark.text for remark in given.remarks)


def test_the_datum_target_area_is_its_nominal() -> None:
    (made,) = answer_json(answer("Ø12/A1", Context()))["characteristics"]
    assert (made["nominal"], made["unit"], made["label"], made["area"]) == ("12", "mm", "A1", "Ø12")
