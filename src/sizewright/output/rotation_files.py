"""A rotation as CSV and JSON Lines, and written to a file in the form that the file's ending names."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable, Iterator
from importlib import resources
from pathlib import Path

from sizewright.output import rotation_rows as shown
from sizewright.output.atomic import write_whole
from sizewright.output.endings import known_ending
from sizewright.output.rotation_rows import RotationSheet
from sizewright.output.safe import guard
from sizewright.training.timetable import Slot

FORMAT = 1
COLUMNS = ("person", "start", "end", "minutes", "task", "part", "piece", "instrument", "lines")


def rotation_csv(sheet: RotationSheet) -> bytes:
    """The slots, one row each, by person and start; UTF-8 with a byte-order mark, so that spreadsheets read names."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(COLUMNS)
    for row in shown.slot_rows(sheet):
        writer.writerow(guard(getattr(row, column)) for column in COLUMNS)
    return text.getvalue().encode("utf-8-sig")


def rotation_jsonl(sheet: RotationSheet) -> bytes:
    """The rotation, one object a line: `{"rotation": {...}}`, then `{"slot": {...}}` by person and start."""
    # Plain ASCII: no character that acts in a terminal gets through, and every program reads it.
    return "".join(f"{json.dumps(each)}\n" for each in rotation_objects(sheet)).encode("ascii")


def schema() -> dict[str, object]:
    """The JSON Schema of one object of the file."""
    text = resources.files("sizewright.output").joinpath("schemas/rotation.schema.json").read_text("utf-8")
    loaded: dict[str, object] = json.loads(text)
    return loaded


def rotation_objects(sheet: RotationSheet) -> Iterator[dict[str, object]]:
    """The objects in order, the header first. Minutes are whole numbers, counted from the beginning."""
    yield {"rotation": _header(sheet)}
    for person in sheet.rotation.work.people:
        for slot in sheet.rotation.timetable.of(person):
            yield {"slot": _slot(slot)}


def _header(sheet: RotationSheet) -> dict[str, object]:
    rotation = sheet.rotation
    work = rotation.work
    return {
        "format": FORMAT,
        "people": list(work.people),
        "shared": work.shared,
        "minutes": rotation.timetable.minutes,
        "lower_bound": rotation.bound.minutes,
        "lower_bound_because": rotation.bound.because,
        "shortest_possible": rotation.shortest,
        "parts": [
            {
                "letter": part.letter,
                "name": part.name,
                "pieces": part.copies,
                "nothing_to_measure": list(part.idle),
                "no_instrument": list(part.unserved),
                "unread": list(part.unread),
            }
            for part in sheet.parts
        ],
        "instruments": [{"name": name, "owned": owned} for name, owned in work.owned.items()],
        "tasks": [
            {
                "task": task.mark,
                "part": task.part,
                "piece": task.piece or None,
                "lines": list(task.lines),
                "instruments": list(task.tools),
                "readings": task.readings,
                "minutes": task.minutes,
            }
            for task in work.tasks
        ],
    }


def _slot(slot: Slot) -> dict[str, object]:
    tools = zip(slot.task.tools, slot.units, strict=True)
    return {
        "person": slot.person,
        "start": slot.start,
        "end": slot.end,
        "task": slot.task.mark,
        "part": slot.task.part,
        "piece": slot.piece,
        "instruments": [{"name": name, "number": number} for name, number in tools],
        "lines": list(slot.task.lines),
    }


# Each form imports its library only when it is asked for.


def _docx(sheet: RotationSheet, paper: str) -> bytes:
    from sizewright.output.rotation_docx import rotation_docx

    return rotation_docx(sheet, paper)


def _csv(sheet: RotationSheet, _: str) -> bytes:
    return rotation_csv(sheet)


def _jsonl(sheet: RotationSheet, _: str) -> bytes:
    return rotation_jsonl(sheet)


def _txt(sheet: RotationSheet, _: str) -> bytes:
    from sizewright.output.rotation_terminal import rotation_text

    return rotation_text(sheet).encode("utf-8")


_FORMS: dict[str, Callable[[RotationSheet, str], bytes]] = {
    ".docx": _docx,
    ".csv": _csv,
    ".jsonl": _jsonl,
    ".txt": _txt,
}


def check_rotation_ending(path: Path) -> None:
    """Refuse a file whose ending tells no form, before any work is done for it.

    Raises:
        InputError: the ending is unknown.
    """
    known_ending(path, _FORMS)


def write_rotation(sheet: RotationSheet, path: Path, paper: str = "A4") -> None:
    """Write `sheet` to `path`, whole or not at all; `paper` (A4 or Letter) is for DOCX.

    Raises:
        InputError: the ending is unknown.
        OutputError: the file cannot be written; what stood there is untouched.
    """
    check_rotation_ending(path)
    write_whole(path, _FORMS[path.suffix.lower()](sheet, paper))
