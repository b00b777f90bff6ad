"""Faults of `mutants.py` that change nothing anybody could see, each with its reason."""

EQUIVALENT: dict[str, str] = {}
