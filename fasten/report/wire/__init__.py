"""Runs of cable as text and JSON."""
