"""All targets by name."""

from __future__ import annotations

from . import file_targets as files
from . import targets as texts
from .targets import Target

TARGETS = {
    "notation": Target(texts.notation, 400, 300_000),
    "restated": Target(texts.restated, 200, 100_000),
    "general": Target(texts.general, 200, 200_000),
    "sheet": Target(texts.sheet, 500, 150_000),
    "sheet_bytes": Target(files.sheet_bytes, 500, 100_000),
    "sheet_csv": Target(files.sheet_csv, 500, 150_000),
    "readings_csv": Target(files.readings_csv, 600, 150_000),
    "cribs": Target(texts.cribs, 500, 150_000),
    "arguments": Target(texts.arguments, 200, 100_000),
    "xlsx": Target(files.xlsx, 4000, 30_000),
    "xlsx_bytes": Target(files.xlsx_bytes, 4000, 30_000),
    "plans": Target(files.plans, 400, 10_000),
    "sampling": Target(texts.sampling, 200, 1_500_000),
    "title": Target(texts.title, 120, 2_000_000),
    "values": Target(texts.values, 80, 2_000_000),
    "fold": Target(texts.fold_target, 200, 1_500_000),
    "numbers": Target(texts.numbers, 60, 2_000_000),
}
