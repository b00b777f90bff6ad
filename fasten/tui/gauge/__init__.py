"""The measuring pass."""
