"""An answer as text, as JSON and compared with others."""
