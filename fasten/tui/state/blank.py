"""A field of a panel to fill in."""

from fasten.record import record


@record
class Blank:
    """One field to fill: its key, its label, what stands in it and, while that is nothing, an example."""

    key: str
    label: str
    text: str = ""
    example: str = ""
    aside: bool = False  # seldom said: Enter does not come by it
    many: bool = False  # several lines may be pasted into it
