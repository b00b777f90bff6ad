"""Signal leads of a job: bought made up with their plugs, unless an end says that they are made of cable."""

from fasten.wiring.words import Carries, DeviceEnd, End, Splice, SpliceEnd, Terminal, TerminalEnd, Unsized

PLUG = TerminalEnd(Terminal.PLUG)
_CONNECTOR = SpliceEnd(Splice.CONNECTOR)


def plugged(carries: Carries | None, from_: End, to: End) -> tuple[End, End]:
    """The ends of a run; those of a signal lead are plugs of which no more is known, where nothing else is said.

    Two connectors are said on purpose, and so is one beside a terminal of bare wire.
    """
    ends = (from_, to)
    is_open = [_is_unsaid(end) or end == _CONNECTOR for end in ends]
    is_lead = all(open_ or _is_plug(end) for open_, end in zip(is_open, ends, strict=True))
    if carries is not Unsized.SIGNAL or not is_lead or ends == (_CONNECTOR, _CONNECTOR):
        return ends
    return (PLUG if is_open[0] else from_), (PLUG if is_open[1] else to)


def _is_unsaid(end: End) -> bool:
    return isinstance(end, DeviceEnd) and not end.battery


def _is_plug(end: End) -> bool:
    return isinstance(end, TerminalEnd) and end.is_plug
