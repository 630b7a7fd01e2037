"""Training: worksheets, scale reading, cards, timetables and marking, all derived from a sheet and a crib."""
