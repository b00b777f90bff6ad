"""Which files this version of the program wrote last: what it wrote it need not check again when it reads it.

Of each file that is saved the digest is kept in a folder of the program's own. Whatever else changes a file changes its
digest, and what it then holds is checked in full. Nothing rests on this but time: where the folder cannot be read or
written every file is checked.
"""

import os
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from fasten import __version__
from fasten.record import record

if TYPE_CHECKING:
    from fasten.job.store.files import Stamp

MOST = 500  # digests that are kept, the newest


@record
class Written:
    """The digests of what was saved, each a file of no content in this folder; without one nothing is known."""

    folder: Path | None = None

    def knows(self, stamp: "Stamp") -> bool:
        """Whether this version of the program wrote what a file holds."""
        return self.folder is not None and os.path.isdir(self.folder) and _is_file(self.folder / _name(stamp))

    def note(self, stamp: "Stamp") -> None:
        """Keep that this was written."""
        if self.folder is None:
            return
        with suppress(OSError, ValueError):
            self.folder.mkdir(parents=True, exist_ok=True)
            (self.folder / _name(stamp)).touch()
            _forget_oldest(self.folder)


UNKNOWN = Written()


def _forget_oldest(folder: Path) -> None:
    with os.scandir(folder) as found:
        names = [(entry.stat().st_mtime_ns, entry.path) for entry in found]
    for _, path in sorted(names)[:-MOST]:
        with suppress(OSError):
            os.unlink(path)


def _name(stamp: "Stamp") -> str:
    return f"{__version__}-{stamp.digest}"


def _is_file(path: Path) -> bool:
    with suppress(OSError, ValueError):
        return path.is_file()
    return False
