"""The body of a DOCX file, put together as text, and the file that python-docx makes around it."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import IO
from zipfile import ZIP_DEFLATED, ZipFile

from docx.document import Document as DocumentType

from sizewright.output import docx_styles as styles
from sizewright.output.docx_xml import paragraph

HEADING = "Heading 1"
_BODY = b"<w:body>"
_TOGETHER = 50  # pieces
_LEVEL = 1  # marks that repeat are packed well by the quickest levels too


class Body:
    """What stands in a document, from top to bottom, as XML."""

    def __init__(self) -> None:
        self._parts: list[str] = []

    def add(self, *xml: str) -> None:
        """Append paragraphs or tables, whole or in pieces."""
        self._parts += xml

    def paragraph(self, style: str, text: str) -> None:
        """Append one paragraph."""
        self._parts.append(paragraph(style, text))

    def items(self, title: str, texts: Sequence[str]) -> None:
        """Append a list under its title; nothing at all where it is empty. An empty title is left out."""
        if texts and title:
            self.paragraph(HEADING, title)
        for text in texts:
            self.paragraph(styles.ITEM, f"–\t{text}")

    def write(self, file: IO[bytes]) -> None:
        """Write all of it to `file`, piece by piece: a long document is many megabytes."""
        for start in range(0, len(self._parts), _TOGETHER):
            file.write(b"".join(map(str.encode, self._parts[start : start + _TOGETHER])))


def file_of(document: DocumentType, body: Body) -> bytes:
    """The bytes of `document` with `body` in front of what its own body holds (its section).

    The body goes into the file as it is: parsing it, only to write it out again, would cost more than making it.
    """
    frame, stream = io.BytesIO(), io.BytesIO()
    document.save(frame)
    name = document.part.partname.membername
    with ZipFile(frame) as made, ZipFile(stream, "w", ZIP_DEFLATED, compresslevel=_LEVEL) as whole:
        for entry in made.infolist():
            with whole.open(entry.filename, "w") as file:
                front, opened, section = _parted(made.read(entry), entry.filename == name)
                file.write(front + opened)
                if opened:
                    body.write(file)
                file.write(section)
    return stream.getvalue()


def _parted(data: bytes, here: bool) -> tuple[bytes, bytes, bytes]:
    """`data` around the place of the body, where it is `here`."""
    return data.partition(_BODY) if here else (data, b"", b"")
