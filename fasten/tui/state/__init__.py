"""What is in hand, without widgets: job, shelf, files, outcomes."""
