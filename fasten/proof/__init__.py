"""Assemble the checks of a joint from the equations and the tables."""
