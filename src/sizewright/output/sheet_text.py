"""A sheet written back: title block, views, ballooned lines with their zones, classes and remarks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sizewright.sheet.model import Line


def sheet_text(title: Mapping[str, str], lines: Iterable[tuple[Line, str]]) -> str:
    """The text of a sheet; each line has the callout that stands beside it. Ends in a line end."""
    written = [f"{word}: {value}" for word, value in title.items()]
    view = None
    for line, callout in lines:
        if line.view != view:
            written += ["", f"view: {line.view}"] if line.view else [""]
            view = line.view
        head = f"{line.balloon}"
        head += f" @{line.zone}" if line.zone else ""
        head += f" [{line.class_}]" if line.class_ else ""
        first, *rest = callout.split("\n")
        # On a line below, what a remark says could make a ballooned line of it.
        written.append(f"{head}: {first}{f'  ; {line.remark}' if line.remark else ''}")
        deeper = " " * (len(head) + 4)  # in the column of the callout it would be one of its own
        written += [f"{deeper}{more}" for more in rest]
    return "\n".join(written) + "\n"
