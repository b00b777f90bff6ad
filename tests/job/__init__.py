"""Tests of the job."""
