"""From a sheet to a plan."""
