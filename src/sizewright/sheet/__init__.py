"""Sheets: from the file in which a drawing's callouts are typed to its title block, lines and faults.

In: a `.sheet`, `.csv` or `.xlsx` file. Out: a `Sheet` (see `model`) that holds what could be read and every fault.
Callouts stay text here; who reads them maps their errors back with `faults.callout_fault`.
"""
