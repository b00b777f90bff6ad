"""Dissimilar metals, by anodic index. Published series differ by up to 0.2 V: a warning, not a proof."""

from fasten.require import not_negative

HARSH_LIMIT_V = 0.15
NORMAL_LIMIT_V = 0.25
CONTROLLED_LIMIT_V = 0.50


def index_difference_v(*, first_v: float, second_v: float) -> float:
    """Difference of two anodic indexes; the metal of the higher index is the one eaten.

    first_v: anodic index of one metal [V]
    second_v: anodic index of the other [V]
    Returns: difference, as its size [V]
    Raises: ValueError for an index below 0: the scale starts at gold.
    Source: anodic index method (partly memory)
    """
    not_negative(first_v=first_v, second_v=second_v)
    return max(first_v, second_v) - min(first_v, second_v)
