"""Runs of cable: what a run needs from its current to its ends, and the plan that a job reads."""
