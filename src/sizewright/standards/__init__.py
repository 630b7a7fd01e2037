"""Published standards as tables and rules. Knows nothing of notation."""
