"""Office files whose bytes depend on nothing but what is in them: no clock, no time zone, no order of writing."""

from __future__ import annotations

import io
import re
from datetime import UTC, datetime
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

WRITTEN = datetime(2000, 1, 1, tzinfo=UTC).replace(tzinfo=None)  # stands for "no date" in the properties of a file
_ZIP_DATE = (2000, 1, 1, 0, 0, 0)
_STAMP = re.compile(rb"(<dcterms:(?:created|modified)[^>]*>)[^<]*(<)")


def repeatable(data: bytes) -> bytes:
    """The office file `data` with fixed dates inside, so that the same content gives the same bytes."""
    stream = io.BytesIO()
    with ZipFile(io.BytesIO(data)) as made, ZipFile(stream, "w", ZIP_DEFLATED) as fixed:
        for name in made.namelist():
            content = made.read(name)
            if name == "docProps/core.xml":
                content = _STAMP.sub(rb"\g<1>2000-01-01T00:00:00Z\g<2>", content)
            info = ZipInfo(name, _ZIP_DATE)
            info.compress_type = ZIP_DEFLATED
            fixed.writestr(info, content)
    return stream.getvalue()
