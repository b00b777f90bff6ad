"""Reports: what was found or advised, as text, JSON and documents. Formats only; computes nothing."""
