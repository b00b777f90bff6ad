"""The section through a joint, drawn in characters and as a picture."""
