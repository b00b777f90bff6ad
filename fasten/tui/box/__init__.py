"""The box and the shelf: what must be in it, the verdict, what is owned, and what is written of it."""
