"""The work, step by step."""
