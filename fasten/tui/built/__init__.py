"""The page on which it is written down what was used, and what that comes to."""
