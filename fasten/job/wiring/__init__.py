"""The runs of cable of a job, and what of them is still to be settled."""
