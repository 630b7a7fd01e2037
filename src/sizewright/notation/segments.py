"""Frames one under the other: which are segments of one stack."""

from __future__ import annotations

from collections.abc import Iterable

from sizewright.notation.model import Frame
from sizewright.text.errors import CalloutError


def stacked(frames: Iterable[Frame]) -> list[Frame]:
    """The frames with their place in their stack; one without a mark takes that of the frame above it.

    Raises:
        CalloutError: a first frame without its characteristic.
    """
    stacks: list[list[Frame]] = []
    for frame in frames:
        if not frame.characteristic:
            if not stacks:
                raise CalloutError("a frame without its characteristic", *frame.span, "|⌖|Ø0.1|A|B|")
            above = stacks[-1]
            stacks[-1] = [each._replace(shared_symbol=True) for each in above]
            stacks[-1].append(frame._replace(characteristic=above[-1].characteristic, shared_symbol=True))
        elif stacks and stacks[-1][-1].characteristic == frame.characteristic and not stacks[-1][-1].shared_symbol:
            stacks[-1].append(frame)
        else:
            stacks.append([frame])
    return [
        frame._replace(segment=(place, len(stack))) for stack in stacks for place, frame in enumerate(stack, start=1)
    ]
