"""Letting go of what was answered, so that it is worked out anew each time that it is measured."""

from fasten.advice.advise import advise, all_refusals, first_advice, turned
from fasten.proof.demands import demands
from fasten.proof.panel import stiffness


def forget() -> None:
    """Let go of every answer, and of what is worked out for a mount point."""
    for kept in (advise, first_advice, all_refusals, turned, demands, stiffness):
        kept.cache_clear()
