"""Which characters may stand in what a person wrote: joiners do, what a terminal obeys or hides does not."""

from functools import lru_cache

JOINERS = "\u200c\u200d"  # of no width, and not printable to Python; several scripts and joined emoji need them
NARROW_SPACES = "\u00a0\u202f"  # likewise: people write them between a number and its unit
_UNJOINED = str.maketrans("", "", JOINERS)


def is_text(char: str) -> bool:
    """Whether a character may be shown as it stands."""
    return char.isprintable() or char in JOINERS


def unjoined(text: str) -> str:
    """A text as it is compared and read: a joiner is kept where it was written, and tells no two words apart."""
    return text.translate(_UNJOINED)


@lru_cache(maxsize=4096)  # the names of a job, which each look at one of them is compared with
def one_name(name: str) -> str:
    """A name as names are compared: its case, the width of its spaces and its joiners tell no two apart."""
    return " ".join(unjoined(name).split()).casefold()
