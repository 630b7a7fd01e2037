"""What a callout comes to: exact limits with their reasons, under a unit, a manner and general tolerances."""
