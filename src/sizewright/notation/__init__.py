"""What people type: from text to a typed model of what it says, and back. Knows no standard and no limit.

In: the text of one callout. Out: a `Callout` (see `model`), or a `CalloutError` at the exact character.
"""
