"""What a callout says of surfaces, edges, tapers, knurls, hardness and sheets, as typed; no limits, no standards.

Positions (`span`) take no part in equality, as in `model.py`, which names these classes among its features.
"""

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Literal, NamedTuple

from sizewright.notation.model_base import NOWHERE, ONCE, Repeat, Span, by_meaning

if TYPE_CHECKING:
    from sizewright.notation.model import Chamfer, Measure, Size

TextureUnit = Literal["um", "uin", "mm", "%"]


@by_meaning
class Texture(NamedTuple):
    """One surface texture requirement.

    `parameter` is Ra, Rz, Rq ... or empty where a mark stands with a number alone; `lower` and `upper` are the bounds
    typed, in `unit` (None: not typed). `grade` is the older N7, or N6-N8, which has no numbers of its own. `rule` is
    the acceptance rule that the text names: `max`, `16 %`, `median`. `words` hold what is said besides (scope, process,
    lay, standard), each in one spelling.
    """

    parameter: str = ""
    lower: Decimal | None = None
    upper: Decimal | None = None
    unit: TextureUnit | None = None
    grade: str = ""
    lengths: int | None = None  # sampling lengths, the 1 of Rz1max
    rule: Literal["max", "16 %", "median"] | None = None
    band: str = ""  # transmission band or cut-off in mm, 0.008-2.5, -0.8
    removal: Literal["required", "prohibited", "any"] | None = None
    lay: str = ""
    allowance: str = ""  # left for machining, as typed, with its unit
    words: tuple[str, ...] = ()
    repeat: Repeat = ONCE
    reference: bool = False
    span: Span = NOWHERE


@by_meaning
class EdgeNote(NamedTuple):
    """A note on edges: broken, deburred. `size` is the break as typed; `count` None: every edge that the words mean."""

    words: str
    size: "Size | Chamfer | None" = None
    after: tuple[str, ...] = ()
    repeat: Repeat = ONCE
    span: Span = NOWHERE


@by_meaning
class ForAll(NamedTuple):
    """A size that holds wherever something occurs: ALL FILLETS R.06, UNLESS OTHERWISE STATED RADII R1."""

    words: str
    size: "Size | Chamfer"
    after: tuple[str, ...] = ()
    span: Span = NOWHERE


@by_meaning
class Edge(NamedTuple):
    """The state of an edge after ISO 13715, in mm or the sheet's unit: minus removed, plus left standing."""

    upper: Decimal
    lower: Decimal
    unit: Literal["mm", "inch"] | None = None
    place: Literal["outside", "inside"] | None = None
    repeat: Repeat = ONCE
    span: Span = NOWHERE


@by_meaning
class Hardness(NamedTuple):
    """A hardness as typed: `scale` is HRC, HBW, HV, Shore A ...; `condition` the test force (30 of HV30)."""

    scale: str
    nominal: Decimal | None = None
    lower: Decimal | None = None
    upper: Decimal | None = None
    condition: str = ""
    words: str = ""
    reference: bool = False
    repeat: Repeat = ONCE
    span: Span = NOWHERE


@by_meaning
class CaseDepth(NamedTuple):
    """The depth of a hardened case; `name` is CHD, SHD, NHD or empty, `limit_hardness` what it is measured to."""

    nominal: Decimal | None = None
    lower: Decimal | None = None
    upper: Decimal | None = None
    unit: Literal["mm", "inch"] | None = None
    name: str = ""
    limit_hardness: str = ""
    words: str = ""
    repeat: Repeat = ONCE
    span: Span = NOWHERE


@by_meaning
class Treatment(NamedTuple):
    """A heat treatment named without any number: NITRIDE."""

    words: str


@by_meaning
class Taper(NamedTuple):
    """A taper of a cone, or a slope of a flat.

    `rate` is exact: the difference of diameters (heights) over the length, or inches a foot where `unit` says so.
    `ratio` is the pair of numbers of 1:10 as typed. `named` is a taper known by name (`Morse`), `number` its size.
    """

    kind: Literal["taper", "slope"] = "taper"
    rate: Fraction | None = None
    unit: Literal["ratio", "inch per foot", "inch per inch", "mm per m", "%"] = "ratio"
    ratio: tuple[Decimal, Decimal] | None = None
    deviations: tuple[Decimal, Decimal] | None = None  # upper, lower, in the unit of the rate
    named: str = ""
    number: str = ""
    standing: Literal["plain", "reference", "basic"] = "plain"
    bare: bool = False  # 1:10 without a word or mark that says taper
    repeat: Repeat = ONCE
    span: Span = NOWHERE


@by_meaning
class Knurl(NamedTuple):
    """A knurl: its pattern, and its pitch in mm or inches, teeth per inch, or diametral pitch."""

    pattern: str = ""
    pitch: Decimal | None = None
    unit: Literal["mm", "inch", "tpi", "dp"] | None = None
    grade: Literal["coarse", "medium", "fine"] | None = None
    raised: bool = False
    angle: Decimal | None = None
    standard: str = ""
    repeat: Repeat = ONCE
    span: Span = NOWHERE


@by_meaning
class SheetGauge(NamedTuple):
    """A sheet by its gauge number; `thickness` is what stands in brackets beside it, for information."""

    number: str
    system: str = ""
    material: str = ""
    thickness: "Measure | None" = None
    repeat: Repeat = ONCE
    span: Span = NOWHERE


Surface = Texture | EdgeNote | ForAll | Edge | Hardness | CaseDepth | Treatment | Taper | Knurl | SheetGauge
# What a count may stand before; the notes that hold everywhere have none.
CountedSurface = Texture | EdgeNote | Edge | Hardness | CaseDepth | Taper | Knurl | SheetGauge
