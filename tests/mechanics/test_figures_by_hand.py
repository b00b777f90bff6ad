"""Equations whose published tables are coarse, to the last figure by hand."""
