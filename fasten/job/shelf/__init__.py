"""What a shelf holds, and what it makes of a job."""
