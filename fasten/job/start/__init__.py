"""How a job begins, and what is done once for several mount points."""
