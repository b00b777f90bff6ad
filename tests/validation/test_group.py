"""Bolt groups against printed results.

Tolerance 1e-4 relative unless said: the books print five or six figures.
"""

from fasten.require import Points

PRINTED = 1e-4


BRACKET: Points = ((-50, 150), (50, 150), (-50, 25), (50, 25))  # heights above the lower edge; centroid at 87.5
