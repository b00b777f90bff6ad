"""What the buttons of the bar say: what each does, with its key where there is room and no field to type it into."""

from fasten.tui.actions import ACTIONS, LEADER, PLACES

KEYS_FROM = 60  # columns from which the bar has room for the keys
READ, _ASK, _READ_KEY = "Read", "Ask", next(action.key for action in ACTIONS if action.name == "read")


def bar_texts(width: int, *, by_letter: bool, is_reading: bool) -> list[str]:
    """The text of each button, from left to right, in a screen of so many columns."""
    named = [*((place.key, place.label) for place in PLACES), (_READ_KEY, _ASK if is_reading else READ)]
    more = f"{LEADER} More" if width >= KEYS_FROM else LEADER
    with_keys = width >= KEYS_FROM and by_letter
    return [more, *(f"{key} {label}" if with_keys else label for key, label in named)]
