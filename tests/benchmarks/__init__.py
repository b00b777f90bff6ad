"""Speed, size and long runs, each a script to run by hand."""
