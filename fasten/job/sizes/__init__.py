"""Standardise the sizes of a job."""
