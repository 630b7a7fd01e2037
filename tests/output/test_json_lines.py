from __future__ import annotations

import json
import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from sizewright.text.json_lines import dumped


@given(st.text(st.characters(), max_size=30))
def test_it_is_exact_and_nothing_in_it_acts(text: str) -> None:
    line = dumped({"callout": text})
    assert json.loads(line) == {"callout": text}
    assert not any(unicodedata.category(char) in ("Cc", "Cf", "Cs", "Zl", "Zp") for char in line)


def test_what_acts_is_escaped_and_marks_stay() -> None:
    assert dumped("Ø\x1b\x9b\u202e\u2028\U000e0001") == '"Ø\\u001b\\u009b\\u202e\\u2028\\udb40\\udc01"'
