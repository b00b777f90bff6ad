"""The job: one vehicle's mount points, the shelf, and what both together say has to be in the box."""
