"""Standard tables and trade data: read, check, overlay and query. Nothing else reads the table files."""
