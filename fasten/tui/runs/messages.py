"""What the page of runs tells: what was pressed, read, wanted or lost there."""

from textual.message import Message

from fasten.tui.runs.run_lines import RunLine
from fasten.tui.state.open_job import Revision


class Pressed(Message, namespace="runs_place"):
    """A line was pressed, as it stood in a job as it was shown."""

    def __init__(self, line: RunLine, seen: Revision) -> None:
        super().__init__()
        self.line, self.seen = line, seen


class Written(Message, namespace="runs_place"):
    """What is typed has been read."""


class RowsWanted(Message, namespace="runs_place"):
    """On a phone the sentence was tapped: its words are wanted as rows."""


class NotKept(Message, namespace="runs_place"):
    """Words that were not understood went with the run that they were said of."""

    def __init__(self, words: str) -> None:
        super().__init__()
        self.words = words
