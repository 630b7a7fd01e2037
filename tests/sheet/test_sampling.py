"""The sampling entry and the lot's size: what reads, and where what does not is at fault. Forms: common practice."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from sizewright.sheet.read import read_text
from sizewright.sheet.sampling import ByAql, Count, SamplingRule, Scheme, Share, Whole, lot_size, read_sampling
from sizewright.standards.sampling import LEVELS, aqls
from sizewright.text.errors import CalloutError

AQL_1 = ByAql("II", Decimal("1.0"))

FOR_ALL = [
    ("all", Whole()),
    ("100 %", Whole()),
    ("100%", Whole()),
    ("every piece", Whole()),
    ("full inspection", Whole()),
    ("5", Count(5)),
    ("5 pieces", Count(5)),
    ("13 pcs Ac 0", Count(13, 0)),
    ("every 10th", Share(Fraction(1, 10), "every 10th")),
    ("1 in 4", Share(Fraction(1, 4), "1 in 4")),
    ("2,5 %", Share(Fraction(1, 40), "2,5 %")),
    ("every 1st", Whole()),
    ("II 1.0", AQL_1),
    ("ii 1,0", AQL_1),
    ("1.0 II", AQL_1),
    ("II AQL 1", AQL_1),
    ("ISO 2859-1 level II AQL 1.0", AQL_1),
    ("ISO 2859-1:1999, general inspection level II, AQL 1.0 %", AQL_1),
    ("ISO 2859-1, level II, AQL 1.0, normal", AQL_1),
    ("AQL 1.0", ByAql("II", Decimal("1.0"), level_typed=False)),
    ("tightened II 1.0", ByAql("II", Decimal("1.0"), "tightened")),
    ("II 1.0, tightened", ByAql("II", Decimal("1.0"), "tightened")),
    ("S3 4.0", ByAql("S-3", Decimal("4.0"))),
    ("S−3 4.0", ByAql("S-3", Decimal("4.0"))),
]


@pytest.mark.parametrize(("typed", "scheme"), FOR_ALL, ids=[typed for typed, _ in FOR_ALL])
def test_one_scheme_for_all(typed: str, scheme: Scheme) -> None:
    assert read_sampling(typed) == SamplingRule(others=scheme)


@pytest.mark.parametrize(
    ("typed", "rule"),
    [
        (
            "critical 100 %, major II 0.65, minor II 2.5",
            SamplingRule(
                {
                    "critical": Whole(),
                    "major": ByAql("II", Decimal("0.65")),
                    "minor": ByAql("II", Decimal("2.5")),
                }
            ),
        ),
        (
            "Critical: all; Major: 5; others = 3",
            SamplingRule({"critical": Whole(), "major": Count(5)}, Count(3)),
        ),
        ("critical all, II 1.0", SamplingRule({"critical": Whole()}, AQL_1)),
        ("II 1.0, critical all", SamplingRule({"critical": Whole()}, AQL_1)),
        ("major ISO 2859-1, level II, AQL 1.0", SamplingRule({"major": AQL_1})),
        ('"as agreed with the customer"', SamplingRule(remark="as agreed with the customer")),
        ("“see QP 12”", SamplingRule(remark="see QP 12")),
    ],
)
def test_by_class(typed: str, rule: SamplingRule) -> None:
    assert read_sampling(typed) == rule


# (text, column and length of what is wrong, words of the message, words of the hint)
BAD = [
    ("some of them", 1, 4, '"some" does not read', '"II 1.0" (level and AQL)'),
    ("critcal all", 1, 7, "does not read", 'did you mean "critical"?'),
    ("II 1.1", 4, 3, "AQL 1.1 is not in the tables", '"1.0" or "1.5"'),
    ("II 0.010", 4, 5, "not in the tables", '"0.065"'),
    ("level IV 1.0", 7, 2, '"IV"', "what would read"),
    ("II", 3, 0, "no AQL", '"II 1.0"'),
    ("II 1.0 2.5", 8, 3, '"2.5"', ""),
    ("II 1.0 III", 8, 3, '"III"', ""),
    ("1.0", 1, 3, '"1.0"', "II 1.0"),
    ("reduced II 1.0", 1, 7, "reduced sampling is not held", "tightened"),
    ("double II 1.0", 1, 6, "only single plans", ""),
    ("critical all major 5", 14, 5, '"major"', "a comma parts the classes"),
    ("critical, major 5", 1, 8, "nothing tells how many", "critical all"),
    ("major 5,, minor 3", 9, 0, "nothing stands beside the comma", ""),
    ("major 5, major 3", 10, 5, "stands twice", ""),
    ("5, 3", 4, 1, "stands twice", ""),
    ("critical II 1.0, tightened", 18, 9, "not clear for which classes", "critical tightened II 1.0"),
    ("5 per hour", 3, 3, '"per"', ""),
    ("0", 1, 1, "no piece at all", ""),
    ("every 0th", 7, 1, "no piece at all", ""),
    ("200 %", 1, 3, "more than the whole lot", ""),
    ("5 Ac 5", 6, 1, "would be accepted", ""),
    ("9999999", 1, 7, "are the most", ""),
    ("5 Ød pieces", 3, 2, '"Ød"', ""),
]


@pytest.mark.parametrize(("typed", "column", "length", "message", "hint"), BAD, ids=[row[0] for row in BAD])
def test_what_does_not_read(typed: str, column: int, length: int, message: str, hint: str) -> None:
    with pytest.raises(CalloutError) as caught:
        read_sampling(typed)
    assert (caught.value.column, caught.value.length) == (column, length)
    assert message in caught.value.message
    assert hint in caught.value.hint
    assert caught.value.hint


def test_the_fault_stands_in_the_sheet() -> None:
    sheet = read_text("sampling:  II 1.1\n1: 25", Path("a.sheet"))
    (fault,) = sheet.faults
    assert (fault.line, fault.column, fault.length) == (1, 15, 3)
    assert sheet.title["sampling"].value == "II 1.1"


@pytest.mark.parametrize(
    ("typed", "size"),
    [
        ("500", 500), ("500 pieces", 500), ("1 piece", 1), ("L-204 of 500", 500), ("L-204, 500 pieces", 500),
        ("L-204 (500 pcs)", 500), ("lot of 40", 40), ("", None), ("L-204", None), ("0500", None), ("0", None),
        ("20260317", None), ("2 of 5", None), ("1,200 pieces", None), ("1 200 pieces", None), ("half of it", None),
    ],
)  # fmt: skip
def test_the_size_of_a_lot(typed: str, size: int | None) -> None:
    assert lot_size(typed) == size


SCHEMES = st.one_of(
    st.sampled_from(["all", "100 %", "every 7th", "1 in 3", "12.5 %"]),
    st.integers(1, 1_000_000).map(lambda n: f"{n} pieces"),
    st.builds(lambda level, aql: f"{level} {aql}", st.sampled_from(LEVELS), st.sampled_from(aqls())),
)


@example({"critical": "2859 pieces"})  # as many as the standard's number
@given(st.dictionaries(st.sampled_from(["critical", "major", "minor", "others"]), SCHEMES, min_size=1))
def test_every_class_gets_its_own(typed: dict[str, str]) -> None:
    rule = read_sampling(", ".join(f"{name} {scheme}" for name, scheme in typed.items()))
    alone = {name: read_sampling(scheme).others for name, scheme in typed.items()}
    assert {**rule.by_class, **({"others": rule.others} if rule.others else {})} == alone


@given(st.text(alphabet="critalmjonv sSI15.,;:%AQL-2890\"'", max_size=30))
def test_it_reads_or_says_where_not(typed: str) -> None:
    caught = None
    try:
        rule = read_sampling(typed)
    except CalloutError as error:
        caught = error
    if caught is None:
        assert rule.by_class or rule.others or typed.strip()[0] in "\"'"
    else:
        assert 1 <= caught.column <= len(typed) + 1
        assert caught.message
