"""Between the program and its terminal: signals, looks, threads."""
