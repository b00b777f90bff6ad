"""Plain lines and CSV of what somebody owns: each becomes a part or a name of a shelf, or leaves a question."""
