"""fasten: how to fasten audio gear to what a vehicle and a bench offer, proven line by line."""

__version__ = "0.1.0"
