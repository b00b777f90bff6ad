"""Sizes, names and words as people write and read them."""
