"""The top line: which job is in hand, whether it is kept, and how far long work is."""

from collections.abc import Sequence

from textual.content import Content
from textual.widgets import Static

from fasten.report.safe import safe
from fasten.tui.actions import LEADER
from fasten.tui.content import content
from fasten.tui.form import clipped

_LEAST = 3  # columns, below which the name of a job says nothing beside a count


def title_line(columns: int, name: str, state: str, work: str = "") -> str:
    """The line in so many columns; the name of the job gives way to what is said of it."""
    said = "  ".join(text for text in (state, work) if text)
    rest = columns - len(f" fasten  {said}  ") - 1
    shown = f"fasten  {clipped(safe(name), rest)}  {said}" if rest > _LEAST or not work else said
    return clipped(shown, columns - 2)


def counted_work(progress: str, *, by_letter: bool) -> str:
    """How far the work is, with the key that stops it; empty where there is none."""
    return f"{progress}, {'' if by_letter else LEADER}q stops it" if progress else ""


class Said(Static):
    """What was said since the last key, right above the foot: it lies over what stands there and moves nothing."""

    def __init__(self) -> None:
        super().__init__(id="said", markup=False)
        self.display = False

    def tell(self, said: Sequence[tuple[str, bool]]) -> None:
        """Show each text on lines of its own, those that warn in bold; nothing where nothing was said."""
        self.display = bool(said)
        self.update(content([((text, "bold open" if warn else "ink"),) for text, warn in said]))


class Title(Static):
    """The line where it stands; a screen without a line to lose shows it only where it warns or counts."""

    def __init__(self) -> None:
        super().__init__(id="title", markup=False)
        self._shown = "", False, False

    def tell(self, line: str, *, warns: bool, works: bool) -> None:
        """Say it where it is another; called every second, it must not have the screen laid out as often."""
        if (line, warns, works) != self._shown:
            self._shown = line, warns, works
            self.update(Content(line))
            self.set_class(warns, "-warns")
            self.set_class(works, "-works")
