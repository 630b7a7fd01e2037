"""What a callout says, as typed: the syntax model. No limits, no standards, no context.

Every part is immutable. Positions (`span`, offsets into the text as typed) take no part in equality, so a model written
back and read again is equal to itself. A family adds its own feature class to `Feature`; nothing here changes for it.
"""

from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from typing import Literal, NamedTuple

from sizewright.notation.model_base import NOWHERE as NOWHERE
from sizewright.notation.model_base import ONCE as ONCE
from sizewright.notation.model_base import Repeat as Repeat
from sizewright.notation.model_base import Span as Span
from sizewright.notation.model_base import by_meaning
from sizewright.notation.model_surfaces import CountedSurface, Surface


class Form(StrEnum):
    """How a number is written; it tells a title-block rule which tolerance is meant."""

    DECIMAL = "decimal"
    FRACTION = "fraction"
    FEET = "feet"
    DEGREES = "degrees"
    MINUTES = "minutes"


@by_meaning
class Amount(NamedTuple):
    """One number: a length (`Decimal`, trailing zeros kept) or an angle (`Fraction`, degrees); signed in deviations."""

    value: Decimal | Fraction
    form: Form = Form.DECIMAL
    unit: Literal["mm", "inch"] | None = None
    span: Span = NOWHERE


@by_meaning
class PlusMinus(NamedTuple):
    """An equal deviation to both sides, not negative."""

    amount: Amount


@by_meaning
class Deviations(NamedTuple):
    """Upper and lower deviation, each with its sign in its value."""

    upper: Amount
    lower: Amount


@by_meaning
class LimitPair(NamedTuple):
    """Both limits of size typed outright; there is no nominal size."""

    upper: Amount
    lower: Amount


@by_meaning
class ToleranceClass(NamedTuple):
    """A letter and a grade as typed, `H7`: capitals are holes (ISO 286-1)."""

    letters: str
    grade: str
    span: Span = NOWHERE

    @property
    def name(self) -> str:
        """The class as it is written."""
        return self.letters + self.grade

    @property
    def internal(self) -> bool:
        """Whether the class is that of a hole."""
        return self.letters.isupper()


@by_meaning
class Classed(NamedTuple):
    """One tolerance class, or the two of a fit (hole first), with deviations or limits typed beside a single one."""

    classes: tuple[ToleranceClass, ...]
    typed: PlusMinus | Deviations | LimitPair | None = None


@by_meaning
class InchFit(NamedTuple):
    """A fit of ANSI B4.1, `RC4`; `member` where the text says hole or shaft."""

    symbol: str
    member: Literal["hole", "shaft"] | None = None
    span: Span = NOWHERE


Tolerance = PlusMinus | Deviations | LimitPair | Classed | InchFit


class Standing(StrEnum):
    """What a size is on the drawing."""

    PLAIN = "plain"
    REFERENCE = "reference"
    BASIC = "basic"


@by_meaning
class Measure(NamedTuple):
    """A size with what tolerances it. `nominal` is None where two limits are typed, and for a full radius."""

    nominal: Amount | None
    tolerance: Tolerance | None = None
    bound: Literal["max", "min"] | None = None
    standing: Standing = Standing.PLAIN
    other: "Measure | None" = None  # the second of two dimensions, for information
    span: Span = NOWHERE


@by_meaning
class Size(NamedTuple):
    """A size of any kind, or an angle: one characteristic (two where a repeated spacing states its total)."""

    kind: str
    measure: Measure
    repeat: Repeat = ONCE
    through: Literal["through", "through all"] | None = None
    total: Amount | None = None  # of a repeated spacing, 5x 20 (=100)
    shorter_side: Amount | None = None  # of an angle, for its general tolerance
    modifiers: tuple[str, ...] = ()
    drill: str = ""  # the drill's name, #7 or F; without a typed size it tells the diameter
    notes: tuple[str, ...] = ()


@by_meaning
class Chamfer(NamedTuple):
    """A chamfer: a size with an angle (either may be typed first), or two legs, or a size alone."""

    size: Measure
    angle: Measure | None = None
    second: Measure | None = None
    angle_first: bool = False
    letter_c: bool = False  # typed C1: 45° goes without saying
    repeat: Repeat = ONCE
    notes: tuple[str, ...] = ()


@by_meaning
class Thread(NamedTuple):
    """A thread as designated.

    `form` is M, MJ, UN, Tr, Acme, Stub Acme, NPT, NPTF, G, R, Rc or Rp; `size` is written `10`, `#8`, `1 1/2`, `0.250`
    or, in inches where a number size could be meant, `10"`. `pitch` and `lead` are in mm (M, MJ, Tr) or inches; an inch
    thread has `tpi` or `pitch`. `side` is what a word says, not what a class implies.
    """

    form: str
    size: str
    pitch: Decimal | None = None
    tpi: Decimal | None = None
    lead: Decimal | None = None
    series: str = ""
    classes: tuple[str, ...] = ()
    hand: Literal["left", "right"] | None = None
    starts: int | None = None
    engagement: Literal["S", "N", "L"] | None = None
    engaged: Amount | None = None  # the length of engagement
    side: Literal["internal", "external"] | None = None
    insert: str = ""  # a thread insert, as typed
    finish: str = ""  # plating and the like, as typed
    repeat: Repeat = ONCE
    through: Literal["through", "through all"] | None = None
    standing: Standing = Standing.PLAIN
    notes: tuple[str, ...] = ()
    span: Span = NOWHERE
    class_span: Span = NOWHERE


@by_meaning
class GeneralRule(NamedTuple):
    """One general tolerance: what it applies to, and the deviation or the standard's classes.

    `applies`: linear, angles, fractions, or the number of decimal places as a figure (`2`); `standard` and `classes`
    where a standard is called instead of a number.
    """

    applies: str
    amount: Amount | None = None
    standard: str | None = None
    classes: str = ""
    span: Span = NOWHERE


@by_meaning
class GeneralNote(NamedTuple):
    """A note that states general tolerances, as a title block does."""

    rules: tuple[GeneralRule, ...]


@by_meaning
class UnitsNote(NamedTuple):
    """A note that states the unit of the drawing."""

    unit: Literal["mm", "inch"]


@by_meaning
class FrameModifier(NamedTuple):
    """What stands beside a zone: `M`, `L`, `S`, `R`, `P` with its height, `F`, `T`, `U` with its part, `CZ` ..."""

    name: str
    amount: Amount | None = None


@by_meaning
class Portion(NamedTuple):
    """The part of a feature that a zone holds for: a length, a rectangle, or a circle of that diameter."""

    first: Amount
    second: Amount | None = None
    round: bool = False


@by_meaning
class DatumElement(NamedTuple):
    """One datum letter with its modifiers, `B(M)`."""

    letter: str
    modifiers: tuple[str, ...] = ()
    span: Span = NOWHERE

    @property
    def name(self) -> str:
        """The datum as it is written."""
        return self.letter + "".join(f"({m})" if len(m) == 1 else f"[{m}]" for m in self.modifiers)


@by_meaning
class DatumReference(NamedTuple):
    """A compartment of datums: one, or the elements of a common datum, `A-B`, with modifiers of the whole."""

    elements: tuple[DatumElement, ...]
    modifiers: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """The reference as it is written: `A`, `B(M)`, `A-B`, `(A-B)(M)`."""
        inner = "-".join(element.name for element in self.elements)
        return f"({inner})" + "".join(f"({m})" for m in self.modifiers) if self.modifiers else inner


@by_meaning
class Frame(NamedTuple):
    """A geometric tolerance (ISO 1101, ASME Y14.5), or one segment of a stack of them for one characteristic.

    `characteristic` is a kind of the answer (`position`, `flatness`); `shape` is empty where no mark stands before the
    zone. `scope` is `all around`, `all over` or `between X and Y`. `segment` is the place in a stack and its height;
    `shared_symbol` tells that one mark stands for the whole stack (ASME composite).
    """

    characteristic: str
    zone: Amount
    shape: Literal["", "diameter", "spherical diameter"] = ""
    modifiers: tuple[FrameModifier, ...] = ()
    portion: Portion | None = None
    datums: tuple[DatumReference, ...] = ()
    indicator: bool = False  # typed as a full indicator movement: TIR, FIM
    scope: str = ""
    notes: tuple[str, ...] = ()
    segment: tuple[int, int] = (1, 1)
    shared_symbol: bool = False
    repeat: Repeat = ONCE
    span: Span = NOWHERE
    modifier_span: Span = NOWHERE
    condition_last: bool = False  # MMC typed after the datums


@by_meaning
class DatumFeature(NamedTuple):
    """The letter by which frames refer to a feature."""

    letter: str
    repeat: Repeat = ONCE
    span: Span = NOWHERE


@by_meaning
class DatumTarget(NamedTuple):
    """A place where the part is held: `A1`, with its area where one is typed (a diameter, or two sides)."""

    label: str
    area: Portion | None = None
    repeat: Repeat = ONCE
    span: Span = NOWHERE


# Features that occur a number of times: what is not among them holds for the whole drawing.
Repeated = Size | Chamfer | Thread | Frame | DatumFeature | DatumTarget | CountedSurface
Feature = Size | Chamfer | Thread | Frame | DatumFeature | DatumTarget | GeneralNote | UnitsNote | Surface


@by_meaning
class Callout(NamedTuple):
    """All that one callout asks for, in the order typed."""

    features: tuple[Feature, ...]


class Note(NamedTuple):
    """Something worth saying about a callout; `offset` is where it stands in the text as typed."""

    level: Literal["info", "warning"]
    text: str
    offset: int | None = None
