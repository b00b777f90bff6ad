"""The file of the user's own test pieces, as text and back, and how one is added to it.

It is read at every start, so that it is checked here by hand and not by what a job is checked by.
"""

from contextlib import suppress
from math import isfinite
from pathlib import Path
from typing import Any

from fasten.errors import FastenError
from fasten.job.store.files import Stamp, is_there, label, make_folder, read_file, write_file
from fasten.job.store.parse import END, HEAD, check_kind, newer_format, parse, table_text
from fasten.model import Into, OwnTest, Read
from fasten.text.shown import shown, visible

KIND, FORMAT = "tests", 1
TEXTS = ("read", "part", "material", "tool", "date")
SIZES = ("sheet", "hole", "error")
_MOST, _LONG = 1e6, 200


def tests_text(tests: tuple[OwnTest, ...]) -> str:
    """The text of the file: in the order in which they were kept."""
    head = table_text({"format": FORMAT, "kind": KIND})
    return HEAD + head + "".join(table_text(_data(test), "[[test]]") for test in tests) + f"\n{END}\n"


def _data(test: OwnTest) -> dict[str, Any]:
    return {
        "read": test.read.value, "part": test.part, "material": test.material, "sheet": test.sheet_mm,
        "hole": test.hole_mm, "readings": list(test.readings), "error": test.error, "tool": test.tool,
        "date": test.date, **({} if test.into is Into.FACE else {"side": test.into.value}),
    }  # fmt: skip


def read_tests(path: Path) -> tuple[OwnTest, ...]:
    """The test pieces of a file, none where there is no file; raises FastenError where it cannot be read."""
    return _loaded(path)[0]


class KeptTests:
    """The test pieces of a file as it is now: read again once it has changed, and as before where it cannot be read."""

    def __init__(self, path: Path, tests: tuple[OwnTest, ...]) -> None:
        self._path, self._tests = path, tests
        self._seen = self._stamp()

    def __call__(self) -> tuple[OwnTest, ...]:
        """The test pieces."""
        now = self._stamp()
        if now != self._seen:
            self._seen = now
            with suppress(FastenError):
                self._tests = read_tests(self._path)
        return self._tests

    def _stamp(self) -> tuple[int, int, int] | None:
        try:
            found = self._path.stat()
        except OSError:
            return None
        return found.st_mtime_ns, found.st_size, found.st_ino


def _loaded(path: Path) -> tuple[tuple[OwnTest, ...], Stamp | None]:
    if not is_there(path):
        return (), None
    content, stamp = read_file(path)
    where = label(path)
    data = parse(content, where)
    check_kind(data, KIND, where)
    if newer_format(data, where, FORMAT) is not None:
        raise FastenError("a newer version of the program wrote it", where=where, fix="bring the program up to date")
    entries = data.get("test", [])
    if not isinstance(entries, list):
        raise FastenError("'test' is no list of tables", where=where, fix="write each under [[test]]")
    return tuple(_test(entry, f"{where}, test {number}") for number, entry in enumerate(entries, 1)), stamp


def _test(entry: Any, where: str) -> OwnTest:
    if not isinstance(entry, dict):
        raise FastenError("it is no table", where=where, fix="write it under [[test]]")
    texts, sizes = {name: entry.get(name, "") for name in TEXTS}, {name: entry.get(name, 0.0) for name in SIZES}
    for name, text in texts.items():
        if not isinstance(text, str) or len(text) > _LONG:
            raise FastenError(f"{name} is {shown(text)}, no short text", where=where, fix="put it in quotes")
    if texts["read"] not in list(Read):
        fix = f"write one of {', '.join(Read)}"
        raise FastenError(f"read is {shown(texts['read'])}, no kind of reading", where=where, fix=fix)
    readings = entry.get("readings")
    if not isinstance(readings, list) or not readings or not all(map(_is_size, readings)):
        raise FastenError("readings are no list of figures above 0", where=where, fix="write readings = [2.9, 3.1]")
    for name, size in sizes.items():
        if not _is_size(size) and not (name == "error" and size == 0):
            raise FastenError(f"{name} is {shown(size)}, no figure above 0", where=where, fix="write it in mm")
    if (side := entry.get("side", Into.FACE.value)) not in [one.value for one in Into]:
        fix = f"write one of {', '.join(one.value for one in Into)}"
        raise FastenError(f"side is {shown(side)}, neither side of a board", where=where, fix=fix)
    if not texts["part"] or not texts["material"]:
        raise FastenError("part or material is missing", where=where, fix="say what was tested, and in what")
    return OwnTest(
        Read(texts["read"]), texts["part"], texts["material"], float(sizes["sheet"]), float(sizes["hole"]),
        tuple(map(float, readings)), float(sizes["error"]), texts["tool"], visible(texts["date"], 20),
        Into(side),
    )  # fmt: skip


def _is_size(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and isfinite(value) and 0 < value < _MOST


def keep(path: Path, more: tuple[OwnTest, ...]) -> tuple[OwnTest, ...]:
    """Add test pieces to the file, each once, and give all that it holds then.

    Raises: FastenError where it cannot be read or written; OutdatedError where another program saved it meanwhile.
    """
    tests, stamp = _loaded(path)
    make_folder(path.parent)
    found = tuple(dict.fromkeys((*tests, *more)))
    write_file(path, tests_text(found).encode(), stamp)
    return found
