"""Holes where they really are: coordinates from distances between holes, and how an item lies on them."""
