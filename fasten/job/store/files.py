"""Atomic file work: a file is read whole with a stamp, and replaced whole or not at all.

A save writes a part file in the folder of the real file, keeps the copy that was there as `<name>.previous`, and moves
the part into place in one step. Killed at any moment it leaves the old file or the new one; the part that a kill leaves
behind has a name nobody opens and goes at the next save.
"""

import errno
import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import cached_property
from pathlib import Path

from fasten.errors import FastenError
from fasten.record import record
from fasten.text.shown import visible

MAX_BYTES = 16_000_000
PREVIOUS = ".previous"
MAX_NAME = 255 - len(PREVIOUS)  # bytes: what file systems take, with the previous copy beside it
PART_START, PART_END = ".fasten-", ".part"

_WRITE = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
_UNTOUCHED = "nothing was overwritten"
_PATIENCE, _MOMENT_S = 60, 0.05  # how often, and how far apart, a folder that is held is asked for: a save takes less
_FULL = (errno.ENOSPC, errno.EDQUOT)
_FORBIDDEN = (errno.EACCES, errno.EPERM, errno.EROFS)


@record
class Stamp:
    """What a file held when it was read. Stamps are equal when the content is.

    `newer` says that a newer version of the program wrote it: such a file is never saved over.
    """

    content: bytes
    newer: bool = False

    def __eq__(self, other: object) -> bool:
        return self.content == other.content if isinstance(other, Stamp) else NotImplemented

    def __hash__(self) -> int:
        return hash(self.content)

    @cached_property
    def digest(self) -> str:
        """The content in a few letters, which no other has."""
        return _digest(self.content)


def _digest(content: bytes) -> str:
    from hashlib import sha256  # the library behind it takes half a megabyte, and the screen stands without

    return sha256(content).hexdigest()


class OutdatedError(FastenError):
    """The file holds something else than it did when it was read; read anew, it can be changed and saved."""


def label(path: Path) -> str:
    """The path of a file as a message shows it."""
    return visible(str(path), 120)


def read_file(path: Path) -> tuple[bytes, Stamp]:
    """The content of a file and its stamp; raises FastenError where it cannot be read."""
    where = label(path)
    try:
        if not path.is_file():  # a pipe or a device would wait for ever
            raise _no_file(path, where)
        with path.open("rb") as file:
            content = file.read(MAX_BYTES + 1)
    except OSError as error:
        what = f"the file cannot be read: {_reason(error)}"
        raise FastenError(what, where=where, fix="check its name and permissions") from error
    if len(content) > MAX_BYTES:
        what = f"the file is over {MAX_BYTES // 1_000_000} MB, too large for a job or a shelf"
        raise FastenError(what, where=where, fix="check that it is the right file")
    return content, Stamp(content)


def changed(path: Path, stamp: Stamp) -> bool:
    """Whether the file no longer holds what it held when it was stamped: another program wrote or removed it.

    Its content says so, and no time of it: clocks are set back, and copies keep the time of what was copied.
    """
    try:
        return read_file(path)[1] != stamp
    except FastenError:
        return True


def is_there(path: Path) -> bool:
    """Whether anything stands there, or may stand where it cannot be looked at."""
    try:
        path.lstat()
    except (FileNotFoundError, NotADirectoryError):
        return False
    except (OSError, ValueError):
        return True
    return True


def make_folder(folder: Path) -> None:
    """Make a folder, and those it is in, where it is not there yet; raises FastenError where it cannot be made."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as error:
        in_way = isinstance(error, FileExistsError | NotADirectoryError)
        why = "a file stands in its way" if in_way else _reason(error)
        what = f"the folder cannot be made: {why}; nothing was saved"
        raise FastenError(what, where=label(folder), fix="name another, or put right what is in the way") from error


def write_file(path: Path, content: bytes, stamp: Stamp | None) -> Stamp:
    """Put `content` in the place of the file that `stamp` was made of; None means that no file is there yet.

    Through a link the file it leads to is written. Content that is there already is left as it is.
    Raises: FastenError if the file is no longer what the stamp says, or cannot be written; it is then as it was.
    """
    where = label(path)
    if stamp is not None and stamp.newer:
        what = "the file was written by a newer version of the program and is open for reading only"
        raise FastenError(what, where=where, fix="save under another name, or bring the program up to date")
    if len(content) > MAX_BYTES:
        what = f"not saved, it would be over {MAX_BYTES // 1_000_000} MB, too large to open again; {_UNTOUCHED}"
        raise FastenError(what, where=where, fix="split it, or shorten its notes")
    try:
        target = Path(os.path.realpath(path))
        _check_name(target, where)
        with _held(target.parent, where) as folder:
            _sweep(target)
            old = _expected(target, stamp, where)
            if old != content:
                _replace(target, old, content)
                _to_disk(folder)
        return Stamp(content)
    except (OSError, ValueError) as error:  # ValueError: a null character in the path
        raise _not_saved(error, where) from error


def _no_file(path: Path, where: str) -> FastenError:
    if path.is_dir():
        return FastenError("a folder stands where the file should be", where=where, fix="name a .toml file")
    if path.is_symlink() or not path.exists():
        return FastenError("the file is not there", where=where, fix="check its name and folder")
    return FastenError("this is not a plain file", where=where, fix="name a .toml file")


def _check_name(target: Path, where: str) -> None:
    if (length := len(os.fsencode(target.name))) > MAX_NAME:
        what = f"not saved, the name of the file is {length} bytes long, at most {MAX_NAME}"
        raise FastenError(what, where=where, fix="save under a shorter name")


def _expected(target: Path, stamp: Stamp | None, where: str) -> bytes | None:
    """What the file holds now, once it is known to be what it held before; None where there is none, as expected."""
    try:
        target.lstat()
    except FileNotFoundError as error:
        if stamp is None:
            return None
        what = f"the file is gone since it was read; {_UNTOUCHED}"
        raise FastenError(what, where=where, fix="put it back, or save as a new file") from error
    content, found = read_file(target)
    if stamp is None:
        what = f"there is a file of this name already; {_UNTOUCHED}"
        raise OutdatedError(what, where=where, fix="open it first, or save under another name")
    if found != stamp:
        what = f"another program changed the file since it was read; {_UNTOUCHED}"
        raise OutdatedError(what, where=where, fix="open it again, or save under another name")
    if not os.access(target, os.W_OK, effective_ids=os.access in os.supports_effective_ids):
        what = f"the file is write-protected; {_UNTOUCHED}"
        raise FastenError(what, where=where, fix="allow writing to it, or save under another name")
    return content


def _replace(target: Path, old: bytes | None, content: bytes) -> None:
    mode = None if old is None else stat.S_IMODE(target.stat().st_mode)
    part = _part(target, content, mode)
    try:
        if old is not None:
            _put(_part(target, old, mode), target.with_name(target.name + PREVIOUS))
        _put(part, target)
    except BaseException:
        _remove(part)
        raise


def _put(part: Path, target: Path) -> None:
    try:
        os.replace(part, target)
    except BaseException:
        _remove(part)
        raise


def _part(target: Path, content: bytes, mode: int | None) -> Path:
    """A new file beside `target`, all of whose content is on the disk; nothing is left of it where that fails."""
    part = target.with_name(f"{_part_start(target)}{os.urandom(4).hex()}{PART_END}")
    file = os.open(part, _WRITE, 0o666)
    try:
        try:
            _write_all(file, content)
            os.fsync(file)
        finally:
            os.close(file)
        if mode is not None:
            with suppress(OSError):  # a memory stick may know no permissions
                part.chmod(mode)
    except BaseException:
        _remove(part)
        raise
    return part


def _write_all(file: int, content: bytes) -> None:
    left = memoryview(content)
    while left:
        left = left[os.write(file, left) :]


def _part_start(target: Path) -> str:
    """How the parts of this file are named: of one length, however long the name of the file is."""
    return f"{PART_START}{_digest(os.fsencode(target.name))[:12]}-"


def _sweep(target: Path) -> None:
    """Remove what a save that was killed left behind."""
    start = _part_start(target)
    with suppress(OSError), os.scandir(target.parent) as found:
        for name in [entry.name for entry in found]:
            if name.startswith(start) and name.endswith(PART_END):
                _remove(target.with_name(name))


def _remove(part: Path) -> None:
    with suppress(OSError):
        part.unlink()


@contextmanager
def _held(folder: Path, where: str) -> Iterator[int | None]:
    """The folder, held against another save of ours, where the system can; a kill lets go of it."""
    try:
        opened = os.open(folder, os.O_RDONLY)
    except OSError:  # no folders are opened on this system, or not this one: the save itself says so
        yield None
        return
    try:
        _lock(opened, where)
        yield opened
    finally:
        with suppress(OSError):  # whatever was to be saved is saved, or is not, by then
            os.close(opened)


def _lock(folder: int, where: str) -> None:
    """Hold the folder; a program that holds it and stands still must not have this one stand still for ever."""
    with suppress(ImportError):  # not on this system
        import fcntl

        for _ in range(_PATIENCE):
            try:
                fcntl.flock(folder, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError:
                from threading import Event

                Event().wait(_MOMENT_S)
            except OSError:  # not on this file system
                return
            else:
                return
        what = f"not saved, another program holds the folder and does not let go of it; {_UNTOUCHED}"
        raise FastenError(what, where=where, fix="end that program, or save elsewhere")


def _to_disk(folder: int | None) -> None:
    """Have the folder on the disk as well; not every file system can, and the file is in place by then."""
    if folder is not None:
        with suppress(OSError):
            os.fsync(folder)


def _not_saved(error: OSError | ValueError, where: str) -> FastenError:
    number = error.errno if isinstance(error, OSError) else None
    if number in _FULL:
        what, fix = "the disk is full", "make room, then save again"
    elif number in _FORBIDDEN:
        what, fix = f"the folder cannot be written to: {_reason(error)}", "save it in a folder of your own"
    elif number == errno.ENOENT:
        what, fix = "the folder is not there", "make it first, or save elsewhere"
    else:
        what, fix = f"it cannot be written: {_reason(error)}", "save under another name or elsewhere"
    return FastenError(f"not saved, {what}; {_UNTOUCHED}", where=where, fix=fix)


def _reason(error: OSError | ValueError) -> str:
    return (getattr(error, "strerror", None) or str(error)).lower()
