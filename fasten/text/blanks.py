"""Sentences with blanks, as the rows of the work have them."""

from string import Formatter


def blanks(text: str) -> list[str]:
    """The names of the blanks of a sentence, as they come."""
    return [name for _, name, _, _ in Formatter().parse(text) if name is not None]
