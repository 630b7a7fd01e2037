"""Instruments: the table of kinds, the crib of a shop, and which instrument is suggested for a characteristic.

In comes a resolved characteristic and a crib, out goes a `Choice` with its reason. Nothing here knows of sheets, plans
or output.
"""
