"""The look that was chosen last, kept for the next start by what the terminal shows."""

from contextlib import suppress
from pathlib import Path

from fasten.record import record
from fasten.tui.palette import DARK, LOOKS, PLAIN

_MOST = 20  # letters of such a file that are read


@record
class KeptLook:
    """A file of one word, in a folder of the program's own; where it cannot be read or written nothing is kept.

    `own` is the look that the terminal has by itself: what was chosen for sixteen colours is not chosen for more.
    """

    folder: Path | None = None
    own: str = DARK

    def look(self) -> str:
        """The look to start in."""
        kept = ""
        if self.folder is not None and self.own != PLAIN:
            with suppress(OSError, ValueError), self._path(self.folder).open(encoding="utf-8") as file:
                kept = file.read(_MOST).strip()
        return kept if kept in LOOKS else self.own

    def keep(self, look: str) -> None:
        """Keep it for the next start."""
        if self.folder is None or look not in LOOKS:
            return
        with suppress(OSError, ValueError):
            self.folder.mkdir(parents=True, exist_ok=True)
            self._path(self.folder).write_text(f"{look}\n", encoding="utf-8")

    def _path(self, folder: Path) -> Path:
        return folder / f"look-{self.own}"


OWN_LOOK = KeptLook()
"""Nothing is kept: a start is in the look that the terminal has by itself."""
