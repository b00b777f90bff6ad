"""From what a person wrote to a mount point with everything known, preset or assumed about it."""
