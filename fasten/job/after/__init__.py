"""What was built, repaired and covered, and how it is judged."""
