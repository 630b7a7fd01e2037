"""Pictures in a DOCX worksheet: the fits that its lines call for, each with alternative text."""

from __future__ import annotations

import io
from collections.abc import Iterator
from itertools import groupby
from typing import Any

from docx.document import Document as DocumentType
from docx.shared import Mm
from lxml import etree

from sizewright.output import docx_styles as styles
from sizewright.output.docx_body import HEADING, Body
from sizewright.output.docx_xml import paragraph_of
from sizewright.output.pictures.drawing import png_of
from sizewright.output.pictures.fit import describe_picture, fit_picture
from sizewright.output.pictures.zones import Zones, zones_of
from sizewright.plan.model import Plan

_WIDTH = 110.0


def add_fits(document: DocumentType, body: Body, plan: Plan) -> None:
    """A section of `body` with a picture of each fit of the plan; nothing where there is none.

    The pictures themselves become parts of `document`.
    """
    fits = list(_fits(plan))
    if not fits:
        return
    body.paragraph(HEADING, "Fits")
    for identifier, (number, zones) in enumerate(fits, start=1):
        body.paragraph(styles.LEGEND, f"balloon {number}: {zones.title}")
        picture: Any = document.part.new_pic_inline(io.BytesIO(png_of(fit_picture(zones))), width=Mm(_WIDTH))
        picture.docPr.set("descr", describe_picture(zones))
        picture.docPr.set("id", str(identifier))  # the part cannot count what is not in its body yet
        body.add(paragraph_of("Normal", f"<w:drawing>{etree.tostring(picture, encoding='unicode')}</w:drawing>"))


def _fits(plan: Plan) -> Iterator[tuple[int, Zones]]:
    for balloon, lines in groupby(plan.lines, key=lambda line: line.balloon):
        made = [line.characteristic for line in lines if line.characteristic is not None]
        for zones in zones_of(made) if any(each.fit for each in made) else ():
            if zones.fit is not None:
                yield balloon, zones
