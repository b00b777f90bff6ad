"""What is said in passing, over the foot of the screen."""

from textual.notifications import Notification, Notify

SHOWN_S = 4.0
READ_S = 1.0  # by then it has been seen: on a short screen the next key takes it away
_LEAST_S = 0.01  # a timer of nothing divides by it, and one of less than nothing never ends


class Notice(Notification):
    """A notice that is always shown for a moment.

    One that runs out between the look at the clock and its showing would be shown for less than no time: the screen
    would take no key any more and could not be ended, or it would end in a fault.
    """

    @property
    def time_left(self) -> float:
        """Seconds that it is still shown."""
        return max(super().time_left, _LEAST_S)


def notice(text: str, *, warn: bool = False) -> Notify:
    """The message to the screen that says a text."""
    return Notify(Notice(text, severity="warning" if warn else "information", timeout=SHOWN_S, markup=False))
