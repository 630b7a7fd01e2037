"""Dimension callouts, read exactly: limits with reasons, inspection plans, readings, verdicts and reports."""

__version__ = "0.1.0"
