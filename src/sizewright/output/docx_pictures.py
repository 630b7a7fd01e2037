"""Pictures in a DOCX worksheet: the fits that its lines call for, each with alternative text."""

from __future__ import annotations

import io
from collections.abc import Iterator
from itertools import groupby
from typing import Any

from docx.document import Document as DocumentType
from docx.shared import Mm

from sizewright.output import docx_styles as styles
from sizewright.output.pictures.drawing import png_of
from sizewright.output.pictures.fit import describe_picture, fit_picture
from sizewright.output.pictures.zones import Zones, zones_of
from sizewright.plan.model import Plan

_WIDTH = 110.0


def add_fits(document: DocumentType, plan: Plan) -> None:
    """A section with a picture of each fit of the plan; nothing where there is none."""
    fits = list(_fits(plan))
    if not fits:
        return
    heading = document.add_paragraph("Fits", style="Heading 1")
    heading.paragraph_format.keep_with_next = True
    for number, zones in fits:
        caption = document.add_paragraph(f"balloon {number}: {zones.title}", style=styles.LEGEND)
        caption.paragraph_format.keep_with_next = True
        run: Any = document.add_paragraph().add_run()
        picture = run.add_picture(io.BytesIO(png_of(fit_picture(zones))), width=Mm(_WIDTH))
        picture._inline.docPr.set("descr", describe_picture(zones))


def _fits(plan: Plan) -> Iterator[tuple[int, Zones]]:
    for balloon, lines in groupby(plan.lines, key=lambda line: line.balloon):
        made = [line.characteristic for line in lines if line.characteristic is not None]
        for zones in zones_of(made):
            if zones.fit is not None:
                yield balloon, zones
