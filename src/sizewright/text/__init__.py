"""Plain text and numbers: look-alike characters, exact numbers, positions, errors. Knows nothing of drawings."""
