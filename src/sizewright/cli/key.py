"""`sizewright key`: the parallel key for a shaft, and the widths and depths of its keyways."""

from __future__ import annotations

import argparse

from sizewright.cli.numbers import size
from sizewright.standards.errors import NotDefined
from sizewright.standards.keys import InchKey, KeyFit, MetricKey, Toleranced, inch_key, inch_key_fit, metric_key
from sizewright.text.errors import InputError
from sizewright.text.numbers import plain

_EPILOG = """\
examples:
  sizewright key 30                      a 30 mm shaft, normal fit (DIN 6885-1, ISO 773)
  sizewright key 30 --fit close
  sizewright key 1.250 --unit inch       ASME B17.1
"""


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `key`."""
    parser.epilog = _EPILOG
    parser.add_argument("diameter", type=size, metavar="DIAMETER", help="diameter of the shaft")
    parser.add_argument("--unit", choices=["mm", "inch"], default="mm", help="unit of the diameter")
    parser.add_argument("--fit", choices=[fit.value for fit in KeyFit], help="fit of a metric key (normal)")
    parser.add_argument("--shape", choices=["square", "rectangular"], help="shape of an inch key (the preferred one)")


def run(given: argparse.Namespace) -> int:
    """Show the key and its keyways."""
    if given.unit == "inch" and given.fit is not None:
        raise InputError("--fit belongs to a metric key; an inch key is told with both classes")
    if given.unit == "mm" and given.shape is not None:
        raise InputError("--shape belongs to an inch key: add --unit inch")
    fit = given.fit or KeyFit.NORMAL.value
    try:
        if given.unit == "mm":
            lines = _metric(metric_key(given.diameter, KeyFit(fit)), fit)
        else:
            lines = _inch(inch_key(given.diameter, given.shape))
    except NotDefined as error:
        near = f"; there are: {', '.join(error.near)}" if error.near else ""
        raise InputError(error.message + near) from None
    print("\n".join(lines))
    return 0


def _metric(key: MetricKey, fit: str) -> list[str]:
    lines = [
        f"parallel key {plain(key.width.nominal)} x {plain(key.height.nominal)} for shafts over {plain(key.over)} "
        f"up to {plain(key.upto)} mm, {fit} fit (DIN 6885-1, ISO 773)",
        _line("key width b", key.width, "mm"),
        _line("key height h", key.height, "mm"),
        _line("keyway width, shaft", key.shaft_width, "mm"),
        _line("keyway width, hub", key.hub_width, "mm"),
        _line("keyway depth t1, shaft", key.shaft_depth, "mm"),
        _line("keyway depth t2, hub", key.hub_depth, "mm"),
    ]
    return lines if key.confirmed else [*lines, "not every figure of this row could be confirmed in print"]


def _inch(key: InchKey) -> list[str]:
    lines = [
        f"{key.shape} key {plain(key.width)} x {plain(key.height)} in (ASME B17.1)",
        _line("S, keyseat bottom to far side of the shaft", key.seat_bottom, "in"),
        _line("T, keyseat bottom to far side of the bore", key.hub_bottom, "in"),
    ]
    if key.shape == "square":
        for fit_class in (1, 2):
            try:
                widths = inch_key_fit(key.width, fit_class)
            except NotDefined:
                continue
            lines.append(_line(f"class {fit_class}, key width", widths.key, "in"))
            lines.append(_line(f"class {fit_class}, keyseat width", widths.keyseat, "in"))
    return [*lines, "the tolerances of depth and width could not be confirmed in print"]


def _line(name: str, size_: Toleranced, unit: str) -> str:
    lower, upper = size_.deviations.limits(size_.nominal)
    class_ = f"  {size_.tolerance_class}" if size_.tolerance_class else ""
    return f"  {name:<44}{plain(lower)} to {plain(upper)} {unit}{class_}"
