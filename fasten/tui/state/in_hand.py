"""What the entry of a page was filled from: its text is taken into that and into nothing else. No widgets here."""

from collections.abc import Mapping

from fasten.record import record
from fasten.tui.state.open_job import STALE, Revision


@record
class InHand:
    """Since when this is in hand, the thing by its name, and what was said of it when its entry was filled or taken.

    Where anything of it is another by now, the entry did not do that: it is filled anew, and what it held is not taken.
    """

    hand: Revision
    name: str
    said: Mapping[str, str]


NOTHING = InHand(STALE, "", {})
