"""Mechanics: one small function an equation, floats in and floats out, no tables and no state.

Every function takes keywords with the unit in the name, states its source, and raises `ValueError` for what cannot be.
What a figure is held against, and with which factor, is decided above this layer.
"""
