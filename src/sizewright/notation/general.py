"""General-tolerance notes and units notes: the rules of `general.lark`."""

from __future__ import annotations

import re
from typing import Any

from sizewright.notation.amounts import as_angle, is_angle
from sizewright.notation.build import span_of
from sizewright.notation.model import Amount, GeneralNote, GeneralRule, UnitsNote
from sizewright.notation.tokens import Token
from sizewright.text.errors import CalloutError

_STANDARD = re.compile(
    r"(?i:(?:din )?(?:en )?iso ?2768(?:-[12](?!\d))?) ?-? ?(?P<linear>[fmcvFMCV])?(?P<geometric>[HKLhkl])?"
    r"(?P<envelope> ?- ?E)?"
)


class GeneralBuilder:
    """Rules of `general.lark`."""

    def bare_rule(self, children: list[Any]) -> GeneralRule:
        amount: Amount = children[-1]
        return GeneralRule("angles" if is_angle(amount) else "linear", amount)

    def places_rule(self, children: list[Any]) -> GeneralRule:
        token, amount = children[0], children[-1]
        figure = re.match(r"\d", token)
        return GeneralRule(figure[0] if figure else str(len(token.partition(".")[2])), _length(amount))

    def fractions_rule(self, children: list[Any]) -> GeneralRule:
        return GeneralRule("fractions", _length(children[-1]))

    def angles_rule(self, children: list[Any]) -> GeneralRule:
        return GeneralRule("angles", as_angle(children[-1]))

    def linear_rule(self, children: list[Any]) -> GeneralRule:
        return GeneralRule("linear", _length(children[-1]))

    def standard_rule(self, children: list[Token]) -> GeneralRule:
        parts = _STANDARD.fullmatch(children[0])
        assert parts is not None
        classes = (parts["linear"] or "").lower() + (parts["geometric"] or "").upper()
        classes += "-E" if parts["envelope"] else ""
        return GeneralRule("standard", None, "ISO 2768", classes, span_of(children[0]))

    def general_heading(self, _children: list[Token]) -> None:
        return None

    def general(self, children: list[Any]) -> GeneralNote:
        rules = tuple(child for child in children if isinstance(child, GeneralRule))
        seen: set[str] = set()
        for rule in rules:
            if rule.applies in seen:
                span = rule.amount.span if rule.amount else rule.span
                raise CalloutError(f"a second tolerance for {_said(rule.applies)}", *span, "one for each")
            seen.add(rule.applies)
        return GeneralNote(rules)

    general_note = general

    def units_note(self, children: list[Token]) -> UnitsNote:
        return UnitsNote("inch" if re.search(r" in (?:in)", children[0].lower()) else "mm")


def _length(amount: Amount) -> Amount:
    if is_angle(amount):
        raise CalloutError("an angle where a length is meant", *amount.span, "ANGLES before it")
    return amount


def _said(applies: str) -> str:
    return f"{applies} decimal places" if applies.isdigit() else applies
