"""What is said in passing, over the foot of the screen."""

from textual.notifications import Notification, Notify

SHOWN_S = 4.0


class Notice(Notification):
    """A notice that is never shown for less than no time.

    One that runs out between the look at the clock and its showing would be shown for less, and a timer of less than
    nothing never ends: the screen would take no key any more and could not be ended.
    """

    @property
    def time_left(self) -> float:
        """Seconds that it is still shown."""
        return max(super().time_left, 0.0)


def notice(text: str, *, warn: bool = False) -> Notify:
    """The message to the screen that says a text."""
    return Notify(Notice(text, severity="warning" if warn else "information", timeout=SHOWN_S, markup=False))
