"""Screw threads by family: sizes, limits and gauging as the standards give them. Knows nothing of notation.

`iso_metric` and `mj` (mm) rest on `iso261` (sizes) and `iso965` (tolerances); `unified` (inches) on `unified_series`
and `unified_rules`. `trapezoidal`, `acme` and `pipe` stand alone. `wires`, `workshop` and `identify` serve all of them.
Every family answers with the types of `model` and raises `NotDefined` for what its standard does not give.
"""
