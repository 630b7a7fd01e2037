"""Each geometric characteristic has its way of inspection with hand and bench tools."""

from __future__ import annotations

import pytest

from sizewright.instruments.crib import crib_of
from sizewright.instruments.features import FORM_FEATURES
from sizewright.instruments.geometric import method_of, methods
from sizewright.output.explain import explain
from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context


def test_every_characteristic_has_a_method() -> None:
    assert {kind for kind, case in methods() if case == "plain"} == FORM_FEATURES
    for method in methods().values():
        assert all(part.strip() for part in method)


# callout, a part of the method that it must have
METHODS = [
    ("⌖ Ø0.1 A B", "twice the root of the two squares"),
    ("⌖ 0.1 A B", "half their sum is the middle"),
    ("⌖ Ø0.1(M) A B", "functional gauge of the virtual condition"),
    ("⏥ 0.05", "three jacks"),
    ("⏤ Ø0.05", "opposite each other"),
    ("∥ 0.02 A", "datum face on the plate"),
    ("↗ 0.02 A", "one turn"),
    ("⌰ 0.02 A", "without a new zero"),
]


@pytest.mark.parametrize(("callout", "said"), METHODS)
def test_the_method_goes_by_the_zone(callout: str, said: str) -> None:
    (made,) = answer(callout, Context()).characteristics
    method = method_of(made)
    assert method is not None
    assert said in method.text
    said_to_the_machinist = " ".join(explain(answer(callout, Context()), crib_of(None)).split())
    assert " ".join(method.text.split()) in said_to_the_machinist
