"""What an answer is made into: the work, the tools and what has to be warned of."""
