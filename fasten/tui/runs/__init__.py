"""The runs of cable, each drawn to scale."""
