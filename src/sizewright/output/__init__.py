"""Plans as a person or a program takes them: terminal, DOCX, XLSX, CSV, JSON Lines, plain text.

`rows`, `slots` and `front` say once what is shown; a module for each form says only how; `write` picks one by the
file's ending. Nothing here computes a limit.
"""
