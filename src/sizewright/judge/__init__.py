"""Judging: readings, the decision rule they are held against, and what comes of each reading, line and part."""
