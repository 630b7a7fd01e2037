"""Training: what a trainer hands out and what the right answers are. Nothing here knows how it is shown."""
