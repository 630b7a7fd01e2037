"""Cribs: what reads, and every fault as its whole text."""

from __future__ import annotations

import os
import re
from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

from sizewright.instruments.crib import CribError, crib_of, default_crib, parse_crib, read_crib
from sizewright.instruments.features import units_of
from sizewright.instruments.kinds import kinds
from sizewright.text.errors import InputError

WHOLE = """
[[instrument]]
kind = "outside micrometer"
name = "bench micrometer"
range = [25, 50]
unit = "mm"
resolution = 0.01
mpe = {constant = "0.004", per_length = 0.00002}
owned = 2
place = "cabinet B"
serial = "OM-07"
due = 2026-03-31
"""
RULE = '[[instrument]]\nkind = "steel rule"\nrange = [0, 12]\nunit = "inch"\nresolution = "1/64"\n'


def test_a_whole_entry_reads_exactly() -> None:
    (made,) = parse_crib(WHOLE).instruments
    assert (made.name, made.kind.name, made.unit) == ("bench micrometer", "outside micrometer", "mm")
    assert (made.lower, made.upper, made.resolution) == (Decimal(25), Decimal(50), Decimal("0.01"))
    assert (made.mpe_constant, made.mpe_slope) == (Decimal("0.004"), Decimal("0.00002"))
    assert (made.owned, made.place, made.serial, made.due) == (2, "cabinet B", "OM-07", date(2026, 3, 31))


def test_what_is_left_out_comes_from_the_kind() -> None:
    (made,) = parse_crib(RULE).instruments
    assert made.name == "steel rule 0-12 inch"
    assert made.resolution == Decimal("0.015625")
    assert made.mpe_constant == Decimal("0.003938")  # 0.1 mm in inches, rounded up
    assert (made.owned, made.place, made.serial, made.due) == (1, "", "", None)


def test_arc_minutes_are_exact() -> None:
    text = '[[instrument]]\nkind="bevel protractor"\nrange=[0,360]\nunit="deg"\nresolution="5\'"\nmpe="1/12"\n'
    (made,) = parse_crib(text).instruments
    assert (made.resolution, made.mpe_constant) == (Fraction(1, 12), Fraction(1, 12))


def test_a_crib_file_reads_with_a_byte_order_mark(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    path.write_bytes(b"\xef\xbb\xbf" + WHOLE.encode())
    assert len(read_crib(path).instruments) == 1
    assert crib_of(str(path)).source == str(path)


def test_where_no_file_is_named_the_default_crib_is_used() -> None:
    assert crib_of(None) is default_crib()


def test_all_faults_are_told_together() -> None:
    text = """
colour = "blue"
[[instrument]]
kind = "vernier calliper"
name = "old one"
range = [150, 0]
unit = "mm"
resolution = 0.05

[[instrument]]
kind = "bevel protractor"
range = [0, 360]
unit = "mm"
resolution = "coarse"
mpe = {constant = 1, per_lenght = 2}
ownd = 2
owned = 0
place = 3
due = "next week"

[[instrument]]
kind = "digital caliper"
unit = "in"
"""
    with pytest.raises(CribError) as caught:
        parse_crib(text, "shop.toml")
    assert (
        str(caught.value)
        == """\
shop.toml: 13 faults in the crib
  colour: no such key; known: instrument
  instrument 1 (old one), kind: no instrument kind 'vernier calliper'; near: vernier caliper, dial caliper
  instrument 1 (old one), range: two numbers, the lower first, as in range = [0, 150]
  instrument 2 (bevel protractor), ownd: no such key; near: owned
  instrument 2 (bevel protractor), unit: bevel protractor in mm: it is graduated in deg
  instrument 2 (bevel protractor), resolution: a number above 0, as in resolution = 0.01
  instrument 2 (bevel protractor), mpe: per_lenght: no such key; near: per_length
  instrument 2 (bevel protractor), owned: how many the shop has, a whole number from 1 on
  instrument 2 (bevel protractor), due: a date, as in due = 2026-03-31
  instrument 2 (bevel protractor), place: a text in quotes, as in place = "..."
  instrument 3 (digital caliper), unit: no such unit 'in'; near: inch
  instrument 3 (digital caliper), range: two numbers, the lower first, as in range = [0, 150]
  instrument 3 (digital caliper), resolution: missing; the smallest step it shows, as in resolution = 0.01"""
    )


ONE_FAULT = [
    ("", "crib: 1 fault in the crib\n  instrument: one [[instrument]] table, in double brackets, for each instrument"),
    ("[instrument]\nkind = 1\n", "crib: 1 fault in the crib\n"
     "  instrument: one [[instrument]] table, in double brackets, for each instrument"),
    (WHOLE.replace("0.01\n", "nan\n"), "crib: 1 fault in the crib\n"
     "  instrument 1 (bench micrometer), resolution: a number above 0, as in resolution = 0.01"),
    (WHOLE.replace("0.01\n", "true\n"), "crib: 1 fault in the crib\n"
     "  instrument 1 (bench micrometer), resolution: a number above 0, as in resolution = 0.01"),
    (WHOLE.replace("0.00002", "-1"), "crib: 1 fault in the crib\n  instrument 1 (bench micrometer), mpe: "
     "a number not below 0, or both parts, as in mpe = {constant = 0.004, per_length = 0.00002}"),
    (RULE.replace("1/64", "1/3"), "crib: 1 fault in the crib\n  instrument 1 (steel rule), resolution: "
     'a number above 0, as in resolution = 0.001 or "1/64"'),
    (RULE.replace("1/64", "1/0"), "crib: 1 fault in the crib\n  instrument 1 (steel rule), resolution: "
     'a number above 0, as in resolution = 0.001 or "1/64"'),
    ('[[instrument]]\nkind="optical comparator"\nrange=[0,360]\nunit="deg"\nresolution="1\'"\n',
     "crib: 1 fault in the crib\n  instrument 1 (optical comparator), mpe: "
     "missing; the figures known of this kind are lengths, as in mpe = \"2'\""),
]  # fmt: skip


@pytest.mark.parametrize(("text", "message"), ONE_FAULT)
def test_a_fault_says_what_would_read(text: str, message: str) -> None:
    with pytest.raises(CribError) as caught:
        parse_crib(text)
    assert str(caught.value) == message


NOT_TOML = [
    ("[[instrument]]\nkind = outside\n", "crib, line 2, column 8: not TOML: invalid value"),
    ("[[instrument]\n", "crib, line 1, column 13: not TOML: expected ']]' at the end of an array declaration"),
    ("a = 1\na = 2\n", "crib, line 2, column 6: not TOML: cannot overwrite a value"),
    ("a = [1,\n", "crib, line 2, at its end: not TOML: invalid value"),
    ("a = " + "9" * 5000, "crib: a line of 5004 characters; 2000 are the most"),
    ("a = " + "[" * 1500, "crib: not TOML that can be used: a number too long, or brackets too deep"),
]


@pytest.mark.parametrize(("text", "message"), NOT_TOML)
def test_what_is_not_toml_is_one_sentence_with_its_line(text: str, message: str) -> None:
    with pytest.raises(InputError) as caught:
        parse_crib(text)
    assert str(caught.value) == message


def test_a_file_that_is_not_there_or_not_text_is_an_input_error(tmp_path: Path) -> None:
    with pytest.raises(InputError, match=r"there is no file .*none\.toml"):
        read_crib(tmp_path / "none.toml")
    (tmp_path / "odd.toml").write_bytes(b"kind = \xff")
    with pytest.raises(InputError, match=r"odd\.toml: not UTF-8 text at byte 8"):
        read_crib(tmp_path / "odd.toml")


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"a." * 500_000 + b"b = 1", "a line of 1000005 characters; 2000 are the most"),
        (b"a = " + b"1" * 1900, "no such key"),
        (b"#\n" * 2_600_000, "too large: 5 MB is the most"),
    ],
)
def test_a_crib_made_to_keep_its_reader_busy_is_refused(tmp_path: Path, data: bytes, message: str) -> None:
    (tmp_path / "odd.toml").write_bytes(data)
    with pytest.raises(InputError, match=message):
        read_crib(tmp_path / "odd.toml")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes on this system")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.toml")
    with pytest.raises(InputError, match="is no ordinary file"):
        read_crib(tmp_path / "a.toml")


def test_the_default_crib_loads_and_is_sound() -> None:
    crib = default_crib()
    names = [made.name for made in crib.instruments]
    assert len(names) == len(set(names))
    for made in crib.instruments:
        assert kinds()[made.kind.name] is made.kind
        assert any(made.unit in units_of(feature) for feature in made.kind.reaches)
        assert made.due is None
    assert {made.unit for made in crib.instruments} == {"mm", "inch", "deg", "um", "uin"}
    assert set(kinds()) - {made.kind.name for made in crib.instruments} == {"coordinate measuring machine"}


# keys, fault
NEW_KEYS = [
    ("repeatability = {spread = 0.002, readings = 1}", "repeatability: the standard deviation of at least 2"),
    ("repeatability = 0.002", "repeatability: the standard deviation of at least 2"),
    ("repeatability = {spred = 0.002, readings = 5}", "spred: no such key; near: spread"),
    ('material = "unobtainium"', "material: a material of the table of expansion"),
]


@pytest.mark.parametrize(("line", "fault"), NEW_KEYS)
def test_spread_and_material_are_checked(line: str, fault: str) -> None:
    with pytest.raises(CribError, match=re.escape(fault)):
        parse_crib(f'[[instrument]]\nkind="digital caliper"\nrange=[0,150]\nunit="mm"\nresolution=0.01\n{line}\n')


def test_spread_and_material_are_read() -> None:
    text = (
        '[[instrument]]\nkind="digital caliper"\nrange=[0,6]\nunit="inch"\nresolution=0.0005\n'
        'material="stainless 303"\n'
    )
    (one,) = parse_crib(text + "repeatability = {spread = 0.0004, readings = 12}\n").instruments
    assert one.repeatability is not None
    assert (one.repeatability.spread, one.repeatability.readings) == (Decimal("0.0004"), 12)
    assert one.material is not None
    assert one.material.material == "stainless 303 / 304 (austenitic)"
