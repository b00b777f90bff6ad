"""The first start: what is to be fitted."""
