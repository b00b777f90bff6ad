"""One module a command: `arguments` declares its options and `run` does it, prints, and returns the exit code.

Nothing but argparse is imported at the top of a command's module.
"""
