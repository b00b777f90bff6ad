"""A document as text, Markdown, HTML and CSV."""
