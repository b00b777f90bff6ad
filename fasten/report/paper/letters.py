"""The letter of a bag: on the work sheet and on the label, so that a bag is found by a glance."""

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # without I and O, which are read as 1 and 0


def bag_letter(place: int) -> str:
    """The letter of the bag of an entry by its place on the sheet, from 1; AA follows Z.

    Raises:
        ValueError: the place is under 1.
    """
    if place < 1:
        raise ValueError(f"place is {place}, must be 1 or more, for the first bag is A")
    letters = ""
    while place:
        place, rest = divmod(place - 1, len(_LETTERS))
        letters = _LETTERS[rest] + letters
    return letters
