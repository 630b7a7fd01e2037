"""What a standard does not say: the one error that the tables and rules raise."""

from __future__ import annotations


class NotDefined(ValueError):
    """A standard gives no value for what was asked.

    `message` is one sentence for the person who typed the callout; `near` lists what the standard
    does define close by, nearest first, in the notation in which it would be typed.
    """

    def __init__(self, message: str, near: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.message = message
        self.near = near
