"""Reading a sheet line by line. Every line is read by itself, so one wrong line spoils no other.

What a line is:

- `word: value` is a title-block entry, `view: name` begins a group, `number: callout` is a ballooned line, and any
  other text is a callout without a number. Before the colon of a number may stand its zone, `@C3`, and its class,
  `[critical]`, in either order.
- After the colon of a bare number stands a blank where the callout begins with a figure: `1:10` is balloon 1 or the
  ratio 1 to 10, so it is a fault. `1: 10` is the balloon, `7: 1:10` the ratio.
- A word with a colon that belongs to the trade's notes (`TOLERANCES:`, `TAPER:`) begins a callout. Any other word that
  is not one of the title block's is a fault.
- `;` begins a remark at the start of a line and after a blank. Glued to the text before it, it belongs to the callout.

An indented line continues the callout above it, except where it

- begins in the very column in which the callout above begins: it is a callout without a number. So such callouts may
  stand in one column with the numbered ones, and what continues a callout stands deeper, or less deep, than that.
  This is remarked on; where the text by itself would only continue a callout (a lone number, a deviation, a depth, a
  counterbore, a frame), it is a fault, for it is not said which is meant;
- begins no deeper than the line above itself (both are indented alike): it is a line of its own, of any sort;
- comes first, or after a title-block entry or a view, so that there is nothing to continue: the same;
- looks like a ballooned line, a title-block entry or a view: that is a fault, and it is kept as what it looks like.

Where a number stands alone on its line, every deeper line after it is its callout. Columns are those shown, with a tab
stop every 8 columns. Blank lines and lines of remark alone part nothing.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from sizewright.sheet.columns import column_at
from sizewright.sheet.drafts import Draft, Row, balloon_number, numbered
from sizewright.sheet.faults import fault_in
from sizewright.sheet.model import Entry, Fault, Line
from sizewright.sheet.near import did_you_mean, quoted
from sizewright.sheet.shape import Piece, Shape, continuation_shape, line_shape
from sizewright.sheet.title import WORDS, enter, near_words, title_word
from sizewright.text.errors import CalloutError

# Words of the trade with which a note begins that has a colon after them.
_HEADING = re.compile(
    r"\b(?:tol(?:erance)?s?|unless|u\.?o\.?s|angles?|angular|fractions?|fractional|linear|lengths?|tapers?|slopes?|cone"
    r"|notes?|thread|thd|chamfers?|radii|fillets?|edges?|corners?|hardness|case|texture|roughness|finish|knurl|datums?"
    r"|keyway|key|holes?|surfaces?|dimensions?|dims?|depth|thickness)\b",
    re.IGNORECASE,
)


# What stands under a callout as a part of it far more often than as a callout of its own.
_PART = re.compile(
    r"[+\-±]|[\d.,]+ ?(?:°|mm|in|\")?$|[⌴⌵↧↓|\[]|c['/ .-]?\s?(?:bore|sink)|csk|cbore|counter|spot|s\.?f\b"
    r"|deep\b|depth\b",
    re.IGNORECASE,
)


@dataclass(slots=True)
class _Above:
    """The line a deeper one would continue: the shown columns of its start and, where it has one, of its callout."""

    draft: Draft
    start: int
    callout: int | None


class SheetReader:
    """Takes the lines of a sheet one after another. Faults are gathered; none is raised."""

    def __init__(self) -> None:
        """Begin a sheet in which nothing stands yet; `remarks` gathers what is worth knowing and no fault."""
        self.remarks: list[str] = []
        self.title: dict[str, Entry] = {}
        self._faults: list[Fault] = []
        self._drafts: list[Draft] = []
        self._view = ""
        self._above: _Above | None = None

    def take(self, number: int, typed: str) -> None:
        """Read the line `number`, typed without its line end."""
        if not typed.strip():
            return
        shape = line_shape(typed)
        if shape.kind == "nothing":
            return
        row = Row(number, typed)
        above = self._continued(row, shape)
        if above is not None:
            self._continue(above.draft, row, continuation_shape(typed))
        else:
            self._begin(row, shape)

    def finish(self) -> tuple[tuple[Line, ...], list[Fault]]:
        """All lines with their balloons, and all faults."""
        lines, doubled = numbered(self._drafts)
        return lines, self._faults + doubled

    def _continued(self, row: Row, shape: Shape) -> _Above | None:
        above, column = self._above, column_at(row.typed, shape.start)
        if above is None or column <= above.start:
            return None
        if column == above.callout:
            self._aligned(row, shape)
            return None
        looks = _looks_like(shape)
        if not looks:
            return above
        whole = Piece(row.typed[shape.start : shape.end], shape.start)
        message = f"an indented line continues the callout above it, but this one looks like {looks}"
        self._fault(row, whole, message, "a line of its own begins no deeper than the line above it")
        return None

    def _aligned(self, row: Row, shape: Shape) -> None:
        """A line in the callout's own column is a callout of its own; say so, or ask where it looks like a part."""
        text = row.typed[shape.start : shape.end].strip()
        if _PART.match(text):
            self._fault(
                row,
                Piece(text, shape.start),
                "this may continue the callout above or be one of its own: it is not said which",
                "indent it deeper than the callout above to continue it, or give it a number",
            )
        elif not _looks_like(shape):
            self.remarks.append(
                f"line {row.number}: taken as a callout of its own; what continues a callout is indented deeper than it"
            )

    def _continue(self, draft: Draft, row: Row, shape: Shape) -> None:
        if shape.text is not None:
            draft.pieces.append((row, shape.text))
        draft.add_remark(shape.remark)

    def _begin(self, row: Row, shape: Shape) -> None:
        if shape.kind == "view":
            self._begin_view(row, shape)
        elif shape.kind == "worded":
            self._begin_worded(row, shape)
        elif shape.kind in ("ballooned", "colonless", "numberlike"):
            self._begin_ballooned(row, shape)
        else:
            self._begin_unnumbered(row, shape)

    def _begin_view(self, row: Row, shape: Shape) -> None:
        self._above = None
        self._view = shape.text.text if shape.text else ""
        if not self._view:
            self._fault(row, Piece("", shape.end), "the view has no name", 'as in "view: front"')

    def _begin_worded(self, row: Row, shape: Shape) -> None:
        assert shape.head is not None
        word = title_word(shape.head.text)
        if word is not None:
            self._above = None
            self._enter(word, row, shape)
        elif _HEADING.search(shape.head.text):
            self._begin_unnumbered(row, shape)
        else:
            self._unknown(row, shape, shape.head)

    def _enter(self, word: str, row: Row, shape: Shape) -> None:
        value = shape.text or Piece("", shape.end)
        fault = enter(self.title, word, row, value)
        if fault is not None:
            self._faults.append(fault)

    def _unknown(self, row: Row, shape: Shape, head: Piece) -> None:
        typed = head.text.strip()
        nearest = near_words(typed)
        hint = did_you_mean(nearest) or (
            f"the words are {', '.join(WORDS)} and view; a callout that begins so has its number before it"
        )
        self._fault(row, Piece(typed, head.offset), f"{quoted(typed)} is no title-block word", hint)
        if nearest:
            self._above = None
        else:
            self._begin_unnumbered(row, shape)

    def _begin_ballooned(self, row: Row, shape: Shape) -> None:
        assert shape.head is not None
        draft = Draft(row, shape.end, number_piece=shape.head, view=self._view)
        try:
            draft.number = balloon_number(shape.head.text)
        except CalloutError as error:
            self._faults.append(fault_in(row.typed, row.number, error, shape.head.offset))
        self._tag(draft, shape.tags)
        if shape.kind == "colonless":
            where = Piece("", shape.tags[-1].end)
            self._fault(row, where, "the colon after the balloon number is missing", 'as in "2 @C3: 25 ±0.1"')
        self._add(draft, shape.text, shape)

    def _begin_unnumbered(self, row: Row, shape: Shape) -> None:
        text = Piece(row.typed[shape.start : shape.end], shape.start)
        if shape.kind == "unclear":
            self._fault(row, text, *_unclear(text.text))
        self._add(Draft(row, shape.end, view=self._view), text, shape)

    def _tag(self, draft: Draft, tags: tuple[Piece, ...]) -> None:
        for tag in tags:
            try:
                if tag.text.startswith("@"):
                    draft.set_zone(tag.text)
                else:
                    draft.set_class(tag.text)
            except CalloutError as error:
                self._faults.append(fault_in(draft.row.typed, draft.row.number, error, tag.offset))

    def _add(self, draft: Draft, text: Piece | None, shape: Shape) -> None:
        if text is not None:
            draft.pieces.append((draft.row, text))
        draft.add_remark(shape.remark)
        self._drafts.append(draft)
        typed = draft.row.typed
        self._above = _Above(draft, column_at(typed, shape.start), column_at(typed, text.offset) if text else None)

    def _fault(self, row: Row, piece: Piece, message: str, hint: str) -> None:
        self._faults.append(Fault(row.number, piece.offset + 1, len(piece.text), message, row.typed, hint))


def _unclear(text: str) -> tuple[str, str]:
    balloon, callout = (part.strip() for part in re.split("[:：]", text, maxsplit=1))
    message = "this is a balloon and its callout, or a ratio: it is not said which"
    as_balloon, as_ratio = quoted(f"{balloon}: {callout}"), quoted(f"7: {text}")
    return message, f"{as_balloon} for the balloon; a number before it, as in {as_ratio}, for the ratio"


def _looks_like(shape: Shape) -> str:
    if shape.kind in ("ballooned", "colonless", "numberlike"):
        return "a ballooned line"
    if shape.kind == "view":
        return "a view"
    if shape.kind == "worded" and shape.head is not None and title_word(shape.head.text):
        return "a title-block entry"
    return ""
