"""Pipe threads: G (ISO 228-1), R, Rc and Rp (ISO 7-1), NPT (ASME B1.20.1) and NPTF (ASME B1.20.3)."""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from typing import Literal

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows
from sizewright.standards.threads.exact import exactly, mm, rounded, trimmed
from sizewright.standards.threads.model import Doubt, TaperGauging, ThreadLimits

TaperKind = Literal["R", "Rc"]
NptKind = Literal["NPT", "NPTF"]

_TAPER = 16


@cache
def _whitworth() -> dict[str, dict[str, str]]:
    return {row["size"]: row for row in rows("pipe_55")}


@cache
def _npt() -> dict[str, dict[str, str]]:
    return {row["nps"]: row for row in rows("npt")}


def g_sizes() -> tuple[str, ...]:
    """Return the size names of ISO 228-1, smallest first."""
    return tuple(_whitworth())


def iso7_sizes() -> tuple[str, ...]:
    """Return the size names of ISO 7-1, smallest first."""
    return tuple(size for size, row in _whitworth().items() if row["R_gauge_len_mm"])


def npt_sizes() -> tuple[str, ...]:
    """Return the nominal pipe sizes of ASME B1.20.1, smallest first."""
    return tuple(_npt())


@exactly
def size_value(size: str) -> Decimal:
    """Return the number a pipe size names, such as 1.25 for `1 1/4`; it is a name, not a dimension."""
    total = Decimal(0)
    for part in size.replace(" OD", "").split():
        above, _, below = part.partition("/")
        total += Decimal(above) / Decimal(below or 1)
    return total


def _near(size: str, known: tuple[str, ...], prefix: str) -> tuple[str, ...]:
    try:
        wanted = size_value(size)
    except ArithmeticError:
        return tuple(prefix + name for name in known[:3])
    ordered = sorted(known, key=lambda name: (abs(size_value(name) - wanted), size_value(name)))
    return tuple(prefix + name for name in ordered[:3])


def _row(size: str, known: tuple[str, ...], prefix: str, standard: str) -> dict[str, str]:
    if size not in known:
        raise NotDefined(f"{prefix}{size} is not a size of {standard}.", _near(size, known, prefix))
    return _whitworth()[size]


@exactly
def g_limits(size: str, internal: bool, tolerance_class: str | None = None) -> ThreadLimits:
    """Return the limits in mm of a parallel pipe thread G, joints not made on the thread (ISO 228-1).

    Args:
        size: Name of the size, such as `1/2` or `1 1/4`.
        internal: True for the internal thread, which has one class only.
        tolerance_class: `A` or `B` of the external thread, which has to state it.

    Raises:
        NotDefined: The size is not in ISO 228-1, or the class does not fit the kind of thread.
    """
    row = _row(size, g_sizes(), "G", "ISO 228-1")
    major, pitch, minor = (Decimal(row[name]) for name in ("major_mm", "pitch_dia_mm", "minor_mm"))
    if internal:
        if tolerance_class:
            raise NotDefined(
                f"An internal G thread has no class {tolerance_class}: it has one class only.", (f"G{size}",)
            )
        return ThreadLimits(
            major=(major, None),
            pitch=(pitch, pitch + mm(row["G_TD2_um"])),
            minor=(minor, minor + mm(row["G_TD1_um"])),
            why=(f"TD2 +{row['G_TD2_um']} µm, ISO 228-1", f"TD1 +{row['G_TD1_um']} µm, ISO 228-1"),
            remarks=("ISO 228-1 sets no tolerance for the internal major diameter",),
        )
    if tolerance_class not in ("A", "B"):
        raise NotDefined(
            "An external G thread is class A or class B; ISO 228-1 knows no other.", (f"G{size}A", f"G{size}B")
        )
    width = row[f"G_Td2_{tolerance_class}_um"]
    return ThreadLimits(
        major=(major - mm(row["G_Td_um"]), major),
        pitch=(pitch - mm(width), pitch),
        minor=(None, minor),
        why=(f"Td2 -{width} µm, class {tolerance_class}, ISO 228-1", f"Td -{row['G_Td_um']} µm, ISO 228-1"),
        remarks=("ISO 228-1 sets no tolerance for the external minor diameter",),
    )


@exactly
def rp_limits(size: str) -> ThreadLimits:
    """Return the limits in mm of a parallel internal pipe thread Rp, pressure-tight with R (ISO 7-1).

    Raises:
        NotDefined: The size is not in ISO 7-1.
    """
    row = _row(size, iso7_sizes(), "Rp", "ISO 7-1")
    width = mm(row["rp_dia_tol_um"])
    major, pitch, minor = (Decimal(row[name]) for name in ("major_mm", "pitch_dia_mm", "minor_mm"))
    return ThreadLimits(
        major=(major - width, major + width),
        pitch=(pitch - width, pitch + width),
        minor=(minor - width, minor + width),
        why=(f"±{row['rp_dia_tol_um']} µm on every diameter, ISO 7-1",),
        remarks=(
            "Rp is checked by a taper plug gauge: how far it enters, not the diameters",
            Doubt("the tolerance is not confirmed by a second print"),
        ),
    )


def _turns(count: Decimal) -> str:
    return f"{trimmed(count)} turn" + ("" if count == 1 else "s")


@exactly
def iso7_gauging(size: str, kind: TaperKind) -> TaperGauging:
    """Return how a taper pipe thread of ISO 7-1 is checked: R external, Rc internal (mm).

    Raises:
        NotDefined: The size is not in ISO 7-1.
    """
    row = _row(size, iso7_sizes(), kind, "ISO 7-1")
    tolerance = Decimal(row["R_gauge_tol_mm"] if kind == "R" else row["int_plane_tol_mm"])
    # ISO 7-1 sets the tolerances as turns (1 to 1.5 P) and prints them in mm to one place.
    turns = rounded(4 * tolerance / Decimal(row["pitch_mm"]), 0) / 4
    external = kind == "R"
    checked = "taper ring gauge" if external else "taper plug gauge"
    return TaperGauging(
        gauge_length=Decimal(row["R_gauge_len_mm"]),
        plane_tolerance=tolerance,
        turns=turns,
        major=Decimal(row["major_mm"]),
        pitch=Decimal(row["pitch_dia_mm"]),
        minor=Decimal(row["minor_mm"]),
        useful_length=Decimal(row["R_useful_nom_mm"]) if external else None,
        why=(f"gauge plane ±{tolerance} mm, {_turns(turns)}, ISO 7-1",),
        remarks=(
            f"checked by where the {checked} stops (gauge plane ±{_turns(turns)}), not by diameters",
            "the thread tapers 1 in 16 on the diameter",
            Doubt("the tolerance of the gauge plane is not confirmed by a second print"),
        ),
    )


@exactly
def npt_gauging(size: str, internal: bool, kind: NptKind = "NPT", nptf_class: int | None = None) -> TaperGauging:
    """Return how an American taper pipe thread is checked (inches): NPT by ASME B1.20.1, NPTF by ASME B1.20.3.

    Args:
        size: Nominal pipe size, such as `3/8` or `1 1/2`.
        internal: True for the internal thread.
        kind: NPT, or NPTF for the dryseal thread.
        nptf_class: 1 or 2 of an NPTF thread; class 2 inspects the truncation of crest and root.

    Raises:
        NotDefined: The size is not in the standard, or the class does not exist.
    """
    if size not in _npt():
        raise NotDefined(f"{size} is not a nominal pipe size of ASME B1.20.1.", _near(size, npt_sizes(), ""))
    if nptf_class is not None and (kind != "NPTF" or nptf_class not in (1, 2)):
        raise NotDefined(f"{kind}-{nptf_class} is not a class of pipe thread.", ("NPTF-1", "NPTF-2"))
    row = _npt()[size]
    turn = rounded(1 / Decimal(row["tpi"]), 5)
    gauge = "L1 plug gauge" if internal else "L1 ring gauge"
    standard = "ASME B1.20.1" if kind == "NPT" else "ASME B1.20.3"
    remarks = [
        f"checked by where the {gauge} stops: gauge plane within one turn of basic, large or small; not by diameters",
        f"one turn is {turn} in along the axis and {rounded(turn / _TAPER, 5)} in on the diameter",
    ]
    if kind == "NPTF":
        remarks.append("dryseal: truncation of crest and root decides the seal")
        inspected = "has to be inspected" if nptf_class == 2 else "is inspected in class 2 only"
        remarks.append(f"truncation {inspected} (ASME B1.20.3)")
    if row["basis"] == "formula":
        remarks.append(Doubt("D and L1 of this size are not confirmed by a second print"))
    return TaperGauging(
        gauge_length=Decimal(row["L1"]),
        plane_tolerance=turn,
        turns=Decimal(1),
        major=None,
        pitch=Decimal(row["E1"]),
        minor=None,
        useful_length=None if internal else Decimal(row["L2"]),
        why=(
            f"L1 {row['L1']} in, E1 {row['E1']} in at the gauge plane, {standard}",
            f"one turn either way, {standard}",
        ),
        remarks=tuple(remarks),
    )


def npt_pipe_diameter(size: str) -> Decimal:
    """Return the outside diameter in inches of the pipe of a nominal size (ASME B1.20.1).

    Raises:
        NotDefined: The size is not in the standard.
    """
    if size not in _npt():
        raise NotDefined(f"{size} is not a nominal pipe size of ASME B1.20.1.", _near(size, npt_sizes(), ""))
    return Decimal(_npt()[size]["D"])


def npt_tpi(size: str) -> Decimal:
    """Return the threads per inch of a nominal pipe size (ASME B1.20.1).

    Raises:
        NotDefined: The size is not in the standard.
    """
    npt_pipe_diameter(size)
    return Decimal(_npt()[size]["tpi"])


def g_basic(size: str) -> tuple[Decimal, Decimal, Decimal, Decimal]:
    """Return threads per inch, then major, pitch and minor diameter in mm of a G size (ISO 228-1).

    Raises:
        NotDefined: The size is not in ISO 228-1.
    """
    row = _row(size, g_sizes(), "G", "ISO 228-1")
    return Decimal(row["tpi"]), Decimal(row["major_mm"]), Decimal(row["pitch_dia_mm"]), Decimal(row["minor_mm"])
