"""The body of a DOCX file, put together as text, and the file that python-docx makes around it."""

from __future__ import annotations

import io
from collections.abc import Sequence
from types import SimpleNamespace
from typing import Any

from docx.document import Document as DocumentType
from docx.opc.pkgwriter import PackageWriter

from sizewright.output import docx_styles as styles
from sizewright.output.docx_xml import paragraph

HEADING = "Heading 1"
_BODY = b"<w:body>"


class Body:
    """What stands in a document, from top to bottom, as XML."""

    def __init__(self) -> None:
        self._parts: list[str] = []

    def add(self, xml: str) -> None:
        """Append paragraphs or tables."""
        self._parts.append(xml)

    def paragraph(self, style: str, text: str) -> None:
        """Append one paragraph."""
        self._parts.append(paragraph(style, text))

    def items(self, title: str, texts: Sequence[str]) -> None:
        """Append a list under its title; nothing at all where it is empty. An empty title is left out."""
        if texts and title:
            self.paragraph(HEADING, title)
        for text in texts:
            self.paragraph(styles.ITEM, f"–\t{text}")

    def xml(self) -> str:
        """All of it."""
        return "".join(self._parts)


def file_of(document: DocumentType, body: Body) -> bytes:
    """The bytes of `document` with `body` in front of what its own body holds (its section).

    The body goes into the file as it is: parsing it, only to write it out again, would cost more than making it.
    """
    package: Any = document.part.package
    parts: list[Any] = list(package.iter_parts())
    for part in parts:
        part.before_marshal()
    front, opened, section = document.part.blob.partition(_BODY)
    blob = b"".join((front, opened, body.xml().encode(), section))
    part = document.part
    whole = SimpleNamespace(partname=part.partname, content_type=part.content_type, blob=blob, rels=part.rels)
    stream = io.BytesIO()
    writer: Any = PackageWriter
    writer.write(stream, package.rels, [whole if each is part else each for each in parts])
    return stream.getvalue()
