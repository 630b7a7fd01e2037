"""The table of kinds is complete, and every feature a characteristic may be is reached by some kind."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizewright.instruments.features import (
    ALL_FEATURES,
    CHARACTERISTIC_KINDS,
    OPENINGS,
    needs,
)
from sizewright.instruments.kinds import UnknownKindError, kind, kinds
from sizewright.instruments.model import Kind
from sizewright.resolve.characteristic import Characteristic, Status

ASKED_FOR = """
steel rule, tape measure, vernier depth gauge, vernier caliper, dial caliper, digital caliper, outside micrometer,
inside micrometer, depth micrometer, vernier outside micrometer, digital outside micrometer,
three-point bore micrometer, dial bore gauge, telescoping gauge, small-hole gauge, bevel protractor,
combination protractor, radius gauges, feeler gauges, thread pitch gauge, pin gauges, plug gauge, ring gauge,
snap gauge, thread plug gauge, thread ring gauge, thread micrometer, three-wire set, vernier height gauge,
taper thread gauge,
digital height gauge, plunger dial gauge, test indicator, gauge blocks, sine bar, roughness comparator plates,
roughness tester, surface plate, optical comparator, precision square, coordinate measuring machine,
indicator over gauge blocks
"""
# design, section 6
KINDS_OF_CHARACTERISTIC = """
length, diameter, radius, controlled radius, spherical diameter, spherical radius, square, across flats, depth,
thickness, arc length, angle, chamfer size, chamfer angle, counterbore diameter, counterbore depth,
countersink diameter, countersink angle, countersink depth, counterdrill diameter, counterdrill depth,
counterdrill angle, spotface diameter, spotface depth, slot width, slot length, slot depth, groove width, groove depth,
groove diameter, keyway width, keyway depth, keyway length, bolt circle diameter, thread, thread depth, thread length,
taper, slope, surface texture, edge, edge break, hardness, case depth, knurl, datum feature, datum target,
general tolerance, units note, note, straightness, flatness, roundness, cylindricity, line profile, surface profile,
angularity, perpendicularity, parallelism, position, concentricity, symmetry, circular run-out, total run-out
"""


def _words(text: str) -> set[str]:
    return {" ".join(word.split()) for word in text.split(",")}


def test_every_kind_asked_for_is_in_the_table() -> None:
    assert set(kinds()) == _words(ASKED_FOR)


@pytest.mark.parametrize("made", kinds().values(), ids=lambda made: made.name)
def test_every_row_is_complete(made: Kind) -> None:
    for name in ("name", "access", "field_check", "method", "mistakes", "source"):
        assert getattr(made, name).strip(), name
    assert made.reaches
    assert made.reaches <= ALL_FEATURES
    assert made.rank > 0
    assert made.greatest > 0
    if not made.attribute:
        assert made.resolution is not None
        assert made.mpe_constant is not None
        assert made.mpe_slope is not None
    if made.reaches & (OPENINGS - {"mouth"}):  # the mouth of a countersink can be seen as well as entered
        assert made.least_inside is not None


def test_kinds_stand_simplest_first() -> None:
    ranks = [made.rank for made in kinds().values()]
    assert ranks == sorted(ranks)


def test_angles_of_the_table_are_exact() -> None:
    assert kind("bevel protractor").resolution == Fraction(1, 12)
    assert kind("sine bar").resolution == Fraction(2, 3600)


def test_a_name_may_be_typed_loosely() -> None:
    assert kind("Digital  Caliper").name == "digital caliper"


def test_an_unknown_kind_names_the_near_ones() -> None:
    with pytest.raises(UnknownKindError) as caught:
        kind("digital calliper")
    assert str(caught.value) == "no instrument kind 'digital calliper'; near: digital caliper, dial caliper"
    assert caught.value.near == ("digital caliper", "dial caliper")


def test_every_kind_of_characteristic_is_covered() -> None:
    assert _words(KINDS_OF_CHARACTERISTIC) == set(CHARACTERISTIC_KINDS)


@pytest.mark.parametrize("side", ["internal", "external", None])
@pytest.mark.parametrize("name", sorted(CHARACTERISTIC_KINDS))
def test_a_characteristic_has_features_that_some_kind_reaches_or_a_statement(name: str, side: str | None) -> None:
    found = needs(Characteristic(name, "mm", Status.TOLERANCED, side=side))  # type: ignore[arg-type]
    assert bool(found.features) or found.why.strip()
    for feature in found.features:
        assert any(feature in made.reaches for made in kinds().values()), feature
    if len(found.features) > 1:
        assert found.why.endswith("is not told")


def test_every_feature_but_the_idle_ones_is_asked_for_by_some_characteristic() -> None:
    sides = ("internal", "external", None)
    asked = {
        feature
        for name in CHARACTERISTIC_KINDS
        for side in sides
        for extra in ({}, {"thread": {"form": "NPT"}})
        for feature in needs(Characteristic(name, "mm", Status.TOLERANCED, side=side, extra=extra)).features  # type: ignore[arg-type]
    }
    assert asked == ALL_FEATURES - {"pitch", "standard"}


def test_a_kind_unknown_to_the_table_gets_a_plain_statement() -> None:
    assert needs(Characteristic("smell", "mm", Status.TOLERANCED)).why == "no instrument is tabled for smell"
