"""The files of jobs and shelves: read, checked and saved."""
