"""What a check finds over its limit, as a part of a sentence."""

from math import isfinite

from fasten.model import Check
from fasten.text.units import number


def exceeded(check: Check) -> str:
    """What fails, as a part of a sentence: what of it there is, and of what that is how much."""
    title = check.title[:1].lower() + check.title[1:] if check.title[1:2].islower() else check.title
    if check.utilisation is None:
        return title
    what, of, most = title.partition(", of ")
    return f"{what} {percent(check.utilisation)}{' of ' if of else ''}{most}"


def percent(utilisation: float) -> str:
    """The share in per cent; with a decimal next to the limit, where 100 % alone would not say on which side."""
    if not isfinite(utilisation):
        return "over"
    return f"{number(utilisation * 100, 1 if 0.99 < utilisation < 1.01 else 0)} %"
