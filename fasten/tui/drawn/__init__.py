"""What is drawn of an answer as lines of runs in roles, from figures to cells: no widget and no colour."""
