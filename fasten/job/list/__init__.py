"""The one list of hardware of a job: its lines, what they need, what is at hand."""
