"""What must fit at a joint, by what its parts stay in."""
