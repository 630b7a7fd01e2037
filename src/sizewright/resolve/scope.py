"""What a family's resolver works with: the context, the text as folded, and a place for remarks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from sizewright.notation.model import Amount, Deviations, Form, LimitPair, Measure, PlusMinus, Span
from sizewright.resolve.context import Context, Unit
from sizewright.text.errors import CalloutError


@dataclass(slots=True, eq=False, repr=False)
class Scope:
    """One callout while it is resolved. `text` is folded; columns of remarks are offsets into it until the end."""

    context: Context
    text: str
    remarks: list[tuple[str, str, int | None]] = field(default_factory=list)

    def info(self, text: str, span: Span | None = None) -> None:
        """Note something worth knowing."""
        self._add("info", text, span)

    def warn(self, text: str, span: Span | None = None) -> None:
        """Note something that may be wrong."""
        self._add("warning", text, span)

    def _add(self, level: str, text: str, span: Span | None) -> None:
        remark = (level, text, span[0] if span else None)
        if remark not in self.remarks:
            self.remarks.append(remark)

    def typed(self, amount: Amount) -> str:
        """A number as it was typed, without its sign."""
        return self.text[slice(*amount.span)].lstrip("+-± ")

    def unit_of(self, amount: Amount) -> Unit:
        """The unit of a length: the one typed, the inch that a fraction implies, or the context's.

        Raises:
            CalloutError: a bare fraction on a metric sheet can be inches or two limits; a comma can part thousands.
        """
        typed = self.text[slice(*amount.span)]
        if amount.form is Form.FEET and '"' not in typed and "''" not in typed and self.context.unit == "mm":
            raise CalloutError("feet, or minutes of arc", *amount.span, f'0°{typed} for an angle, {typed}-0" for feet')
        if amount.unit is not None:
            return amount.unit
        if amount.form is Form.FRACTION and self.context.unit == "mm":
            if " " not in typed.strip() and "-" not in typed:
                top, _, bottom = typed.partition("/")
                raise CalloutError(
                    "a bare fraction on a metric drawing: inches, or two limits",
                    *amount.span,
                    f'{typed}" for inches, {bottom} TO {top} for limits',
                )
            self.warn("a fraction: taken as inches", amount.span)
            return "inch"
        return self.context.unit

    def unit_of_measure(self, measure: Measure) -> Unit:
        """The unit of a length measure, all of whose numbers are checked for it.

        Raises:
            CalloutError: as `unit_of`.
        """
        amounts = list(_amounts(measure))
        if not amounts:
            return self.context.unit
        unit = self.unit_of(amounts[0])
        if unit != self.context.unit and amounts[0].unit is not None and not _says_unit(self.typed(amounts[0])):
            word = "inches" if unit == "inch" else "mm"
            drill = amounts[0].form is Form.FRACTION and len(amounts) == 1  # no unit stands anywhere
            words = "a fraction: taken as inches" if drill else f"the unit typed last is taken for the size too: {word}"
            self.warn(words, measure.span)
        for amount in amounts:
            if unit == "mm" and amount.form is Form.FRACTION:
                self.unit_of(amount._replace(unit=None))
            if unit == "inch" and _thousands(self.typed(amount)):
                raise CalloutError(
                    "a comma and three figures in inches: a decimal comma, or thousands",
                    *amount.span,
                    f"{self.typed(amount).replace(',', '.')} or {self.typed(amount).replace(',', '')}",
                )
        return unit


def _amounts(measure: Measure) -> Iterator[Amount]:
    if measure.nominal is not None:
        yield measure.nominal
    match measure.tolerance:
        case PlusMinus(amount):
            yield amount
        case Deviations(upper, lower) | LimitPair(upper, lower):
            yield upper
            yield lower


def _says_unit(typed: str) -> bool:
    return any(mark in typed.lower() for mark in ("mm", "in", '"', "'"))


def _thousands(typed: str) -> bool:
    whole, comma, rest = typed.partition(",")
    return bool(comma) and len(rest) == 3 and rest.isdigit() and whole not in ("", "0")
