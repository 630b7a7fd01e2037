"""What a family's resolver works with: the context, the text as folded, and a place for remarks."""

from __future__ import annotations

from dataclasses import dataclass, field

from sizewright.notation.model import Amount, Form, Measure, Span
from sizewright.resolve.characteristic import Remark
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

    def unit_of(self, amount: Amount) -> Unit:
        """The unit of a length: the one typed, the inch that a fraction implies, or the context's.

        Raises:
            CalloutError: a bare fraction on a metric sheet can be inches or two limits; a comma can part thousands.
        """
        if amount.unit is not None:
            return amount.unit
        typed = self.text[slice(*amount.span)]
        if amount.form is Form.FRACTION and self.context.unit == "mm":
            if " " not in typed.strip() and "-" not in typed:
                top, _, bottom = typed.partition("/")
                raise CalloutError(
                    "a bare fraction on a metric drawing: inches, or two limits",
                    *amount.span,
                    f'{typed}" for inches, {top}.0/{bottom}.0 for limits',
                )
            self.warn("a fraction: taken as inches", amount.span)
            return "inch"
        if self.context.unit == "inch" and _thousands(typed):
            raise CalloutError(
                "a comma and three figures on an inch drawing: a decimal comma, or thousands",
                *amount.span,
                f"{typed.replace(',', '.')} or {typed.replace(',', '')}",
            )
        return self.context.unit

    def unit_of_measure(self, measure: Measure) -> Unit:
        """The unit of a length measure."""
        if measure.nominal is not None:
            return self.unit_of(measure.nominal)
        limits = measure.tolerance
        upper: Amount | None = getattr(limits, "upper", None)
        return self.unit_of(upper) if upper is not None else self.context.unit


def _thousands(typed: str) -> bool:
    whole, comma, rest = typed.partition(",")
    return bool(comma) and len(rest) == 3 and rest.isdigit() and whole not in ("", "0")


def as_remarks(scope: Scope, columns: list[int | None]) -> tuple[Remark, ...]:
    """The remarks of a scope with `columns` (1-based, as typed) in place of their offsets."""
    return tuple(
        Remark("warning" if level == "warning" else "info", text, column)
        for (level, text, _), column in zip(scope.remarks, columns, strict=True)
    )
