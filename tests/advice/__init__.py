"""Tests of what an answer is made into."""
