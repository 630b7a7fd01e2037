"""Pictures: computed from numbers, drawn to scale, readable in grey. SVG text, PNG bytes, or plain text."""
