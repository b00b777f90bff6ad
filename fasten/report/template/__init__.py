"""The drilling template of a mount point."""
