"""Geometry: threads, holes and bits, the stack and its screw length, patterns of fixings."""
